import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";

const css = readFileSync(resolve(import.meta.dirname, "../../../dashboard/web/styles/tokens.css"), "utf8");

type Theme = "light" | "dark";

/** The colours of a theme as the style sheet has them. */
function coloursOf(theme: Theme): Map<string, string> {
  const start = theme === "light" ? css.indexOf(":root {") : css.indexOf(':root[data-theme="dark"]');
  const block = css.slice(start, css.indexOf("\n}", start));
  return new Map(
    [...block.matchAll(/--([a-z0-9-]+): (#[0-9a-f]{6});/g)].map(([, name = "", hex = ""]) => [name, hex]),
  );
}

// WCAG 2.2, definitions of relative luminance and contrast ratio.
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((i) => {
    const channel = parseInt(hex.slice(i, i + 2), 16) / 255;
    return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a: string, b: string): number {
  const [x, y] = [luminance(a), luminance(b)];
  return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
}

/** What stands on what in the pages. WCAG 2.2: text 4.5 (1.4.3), graphics that carry meaning 3 (1.4.11). */
const texts: [string, string][] = [
  ...["desk", "sheet", "strip", "act-soft", "plan-soft", "quiet-soft", "printed"].map(
    (ground): [string, string] => ["ink", ground],
  ),
  ...["desk", "sheet", "strip", "act-soft", "plan-soft", "quiet-soft"].map((ground): [string, string] => [
    "ink-2",
    ground,
  ]),
  ...["desk", "sheet", "strip"].flatMap((ground): [string, string][] => [
    ["accent", ground],
    ["act", ground],
    ["plan", ground],
  ]),
  ["act", "act-soft"],
  ["plan", "plan-soft"],
  ["on-act", "act"],
  ["on-button", "button"],
];
const graphics: [string, string][] = [
  ...["desk", "sheet", "strip", "act-soft"].map((ground): [string, string] => ["edge", ground]),
  ["fan", "strip"],
  ["accent", "printed"],
  ["quiet", "quiet-soft"],
  ["wind", "roll"],
];

describe.each(["light", "dark"] as const)("the colours of the %s theme", (theme) => {
  const colours = coloursOf(theme);
  const ratio = ([front, ground]: [string, string]) => {
    const [a, b] = [colours.get(front), colours.get(ground)];
    if (a === undefined || b === undefined) throw new Error(`no colour ${front} or ${ground} in ${theme}`);
    return contrast(a, b);
  };

  it.each(texts)("set %s on %s readable as text", (...pair) => {
    expect(ratio(pair)).toBeGreaterThanOrEqual(4.5);
  });

  it.each(graphics)("set %s on %s visible as a picture", (...pair) => {
    expect(ratio(pair)).toBeGreaterThanOrEqual(3);
  });
});

describe("the measure of contrast", () => {
  // Values computed with the WCAG 2 formula elsewhere.
  it.each([
    ["#767676", 4.5422],
    ["#777777", 4.4781],
    ["#595959", 7.0047],
    ["#949494", 3.0335],
    ["#000000", 21],
  ])("gives %s on white a ratio of %d", (grey, expected) => {
    expect(contrast(grey, "#ffffff")).toBeCloseTo(expected, 3);
  });
});
