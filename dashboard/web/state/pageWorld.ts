/** The outer world as `main` hands it in. */
export type PageWorld = {
  window: Window & typeof globalThis;
  localMs: () => number;
  random: () => number;
};
