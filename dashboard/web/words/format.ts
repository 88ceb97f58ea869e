export { formatIn, type Format, type Units } from "../../alerts/format.ts";
