import * as fc from "fast-check";

/** Any figure of a range in thousandths: fast-check's doubles crowd around zero, where nothing is to be seen. */
export function anyBetween(min: number, max: number): fc.Arbitrary<number> {
  return fc
    .integer({ min: Math.ceil(min * 1000), max: Math.floor(max * 1000) })
    .map((thousandths) => thousandths / 1000);
}
