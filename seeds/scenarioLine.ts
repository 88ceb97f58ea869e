import type { NewItem } from "@boothward/shared-types";

/** First line of a scenario: its name and how long it goes on. */
export type ScenarioHeader = { readonly scenario: string; readonly lengthMs: number };

/** Something a source would have seen, so long after the start of the scenario. */
export type ScenarioItem = { readonly atMs: number; readonly item: NewItem };

/** The venue's network is away for `holdLink` ms. */
export type ScenarioHold = { readonly atMs: number; readonly holdLink: number };

export type ScenarioLine = ScenarioHeader | ScenarioItem | ScenarioHold;

/** An item before its place in the scenario is set: minutes relative to now. */
export type MinuteLine = { readonly atMin: number; readonly item: NewItem };

/** A scenario as the text of a file: one JSON object a line. */
export function scenarioText(lines: readonly ScenarioLine[]): string {
  return lines.map((line) => `${JSON.stringify(line)}\n`).join("");
}

/** The items alone, in their order. */
export function itemsOf(lines: readonly ScenarioLine[]): ScenarioItem[] {
  return lines.filter((line): line is ScenarioItem => "item" in line);
}
