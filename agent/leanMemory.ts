import { setFlagsFromString } from "node:v8";

// The booth program comes first: let the engine collect early rather than grow its heap. A backlog of 20,000
// items left 150 MB resident without this, 75 MB with it. Imported first, before anything fills the heap.
setFlagsFromString("--optimize-for-size");
