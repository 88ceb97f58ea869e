/** The face of the forecast library: pure functions of plan, counts and time. */
export { outlookOf } from "./outlook.ts";
export { demandRate, type DemandRate } from "./demandRate.ts";
export {
  beliefOfPlan,
  demandIn,
  perHourOf,
  runOutChance,
  withSeen,
  type RateBelief,
} from "./gammaPoisson.ts";
export { nbAtMost, nbQuantiles, type NegativeBinomial } from "./negativeBinomial.ts";
export { sunsetAtMs, type Place } from "./sun/sunset.ts";
