/**
 * The two clocks of a computer at one moment: the wall clock (Unix ms, may be wrong or stepped) and a
 * steady one (ms from any start). Passed in wherever time is needed.
 */
export type ClockReading = { readonly wallMs: number; readonly monoMs: number };
export type Clock = () => ClockReading;
