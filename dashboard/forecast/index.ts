/** The face of the forecast library: pure functions of plan, counts and time. */
export { isSameHeat } from "./heatAhead.ts";
export { isSameAhead, outlookOf, whatIfsOf, withHeatNow, type OutlookMemo } from "./outlook.ts";
export { sunOfBooking } from "./sunAhead.ts";
export { sunsetAtMs } from "./sun/sunset.ts";
