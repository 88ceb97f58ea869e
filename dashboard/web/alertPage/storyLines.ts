import type { AlertStory } from "@boothward/shared-types/alertStory";
import { storyWords, toldWords as words } from "../words/en/alerts.ts";
import type { Format } from "../../alerts/format.ts";

/** One line of an alert's story. */
export type StoryLine = { atMs: number; text: string };

/** Who said what and who was told, oldest first. A step that this page has no words for is passed over. */
export function storyLines({ log, told }: Pick<AlertStory, "log" | "told">, format: Format): StoryLine[] {
  const said = log.flatMap(({ atMs, step, by, device }): StoryLine[] => {
    const say = storyWords[step];
    if (say === undefined) return [];
    const who = `${by ?? words.somebody}${device === null ? "" : words.device(device)}`;
    return [{ atMs, text: say(who) }];
  });
  const notices = told.map((line): StoryLine => ({ atMs: line.atMs, text: toldText(line, format) }));
  return [...said, ...notices].sort((a, b) => a.atMs - b.atMs);
}

function toldText(
  { atMs, toRole, way, label, state, arrivedAtMs }: AlertStory["told"][number],
  format: Format,
): string {
  const what =
    arrivedAtMs === null ? (words.state[state] ?? state) : words.arrived(format.age(arrivedAtMs - atMs));
  const who = words.who[toRole];
  if (way === null || label === null) return words.noWay(who, what);
  return words.told(who.charAt(0).toUpperCase() + who.slice(1), label, words.way[way], what);
}
