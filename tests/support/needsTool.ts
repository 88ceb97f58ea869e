import { describe, test } from "vitest";
import { findTool } from "./findTool.ts";

/**
 * A `describe` for tests that need a program of the operating system (the first of `tools` that is there
 * will do). Without it the tests are skipped and say how to get it; in CI its absence is a failing test.
 *
 * `isAble` says no where the program is there and cannot be used.
 *
 * `needsTool("cupsd", "apt-get install cups")("a queue", () => { ... })`
 */
export function needsTool(
  tools: string | readonly string[],
  remedy: string,
  isAble: () => boolean = () => true,
): DescribeFunction {
  const names = typeof tools === "string" ? [tools] : tools;
  if (names.some((name) => findTool(name) !== null) && isAble())
    return (title, body) => void describe(title, body);
  const why = `needs ${names.join(" or ")}: ${remedy}`;
  if (process.env["CI"] !== undefined && process.env["CI"] !== "") {
    return (title) => {
      test(`${title}: ${why}`, () => {
        throw new Error(why);
      });
    };
  }
  return (title, body) => {
    console.warn(`skipped "${title}": ${why}`);
    describe.skip(title, body);
  };
}

type DescribeFunction = (title: string, body: () => void) => void;
