import { config } from "zod/mini";

// The page's content policy forbids code made from text, which zod would otherwise try.
config({ jitless: true });
