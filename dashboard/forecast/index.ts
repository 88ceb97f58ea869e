/** The face of the forecast library: pure functions of plan, counts and time. */
export { isSameAhead, outlookOf, whatIfsOf } from "./outlook.ts";
export { sunsetAtMs } from "./sun/sunset.ts";
