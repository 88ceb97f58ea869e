import type { Day, DayBooth, Incident } from "./day.ts";

/** What happens in the first minutes after now, one line a change, in the order of time. */
export function storyOf(day: Day, forMin: number): string[] {
  return day.booths
    .flatMap((booth) => booth.incidents.flatMap((incident) => linesOf(booth, incident)))
    .filter(({ atMin }) => atMin >= 0 && atMin <= forMin)
    .sort((a, b) => a.atMin - b.atMin)
    .map(({ atMin, words }) => `after  ${atMin.toFixed(0).padStart(2)} min  ${words}`);
}

type StoryLine = { readonly atMin: number; readonly words: string };

function linesOf({ name }: DayBooth, incident: Incident): StoryLine[] {
  const { atMin } = incident;
  switch (incident.kind) {
    case "jam":
      return [
        { atMin, words: `${name}'s printer jams: somebody is needed now` },
        { atMin: atMin + incident.forMin, words: `${name}'s jam is cleared` },
      ];
    case "linkCut":
      return [
        { atMin, words: `${name}'s Wi-Fi drops, and the booth goes on counting` },
        { atMin: atMin + incident.forMin, words: `${name} is back, and what it counted comes in` },
      ];
    case "rollChange":
      return [{ atMin: atMin + incident.forMin, words: `${name} has a new roll` }];
    case "shade":
      return [{ atMin, words: `${name} is put in the shade` }];
  }
}
