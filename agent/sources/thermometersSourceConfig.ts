import * as z from "zod";

/** Settings of the thermometers that the operating system itself shows (Linux: sysfs). */
export const thermometersSourceConfig = z.strictObject({
  kind: z.literal("thermometers"),
  name: z.string().min(1).max(60).default("thermometer"),
  /** Air in a booth moves by tenths of a degree a minute. */
  everyMs: z.int().min(500).max(600_000).default(10_000),
  /** Which sensor is where; the keys are those that `survey` lists, for example w1:28-0316a2795f1e. */
  sensors: z
    .record(z.string().min(1).max(200), z.enum(["inside", "outside"]))
    .refine(
      (sensors) => Object.keys(sensors).length > 0,
      "must name at least one sensor (see: agent survey)",
    ),
  /** Where the sysfs tree begins. */
  root: z.string().default("/sys"),
});
export type ThermometersSourceConfig = z.infer<typeof thermometersSourceConfig>;
