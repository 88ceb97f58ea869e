import type { PowerPlan } from "@boothward/shared-types";

/** 1,200 W on a 15 A breaker of 120 V without a cord: 10 A; `over` changes what a test is about. */
export function aPowerPlan(over: Partial<PowerPlan> = {}): PowerPlan {
  return {
    ...{ source: "mains", volts: 120, breakerA: 15, cord: null, batteryWh: null },
    loads: [
      { what: "Printer", watts: 500 },
      { what: "Lights", watts: 700 },
    ],
    ...over,
  };
}
