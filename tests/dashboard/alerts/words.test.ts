import { describe, expect, it } from "vitest";
import { reasonWords } from "../../../dashboard/alerts/reasonWords.ts";
import { minuteMs, sixAtMs } from "../../support/aStoredItem.ts";
import { rfc8011Reasons } from "../../support/rfc8011Reasons.ts";
import { wordsOf } from "../../support/wordsOf.ts";

describe("the words of a stopped printer", () => {
  it("say what to do about a jam, and warn of hot parts", () => {
    expect(wordsOf({ reasons: ["media-jam"], queuedJobs: 3 })).toEqual({
      headline: "Sorrel's printer is jammed: open it, take the paper out, close it.",
      doNow: "Open it, take the paper out, close it.",
      detail:
        "It has not printed since 18:00. 3 prints wait. " +
        "Parts inside may be hot: touch only what the printer's maker says.",
      chip: "Stopped",
    });
  });

  it("name the spare roll, or the want of one", () => {
    const empty = { reasons: ["media-empty", "marker-supply-empty"] };
    expect(wordsOf({ ...empty, spareRolls: 1 }).headline).toBe(
      "Sorrel's printer is out of paper: fit the spare roll.",
    );
    expect(wordsOf({ ...empty, spareRolls: 1 }).detail).toContain("It also is out of ribbon.");
    expect(wordsOf({ ...empty, spareRolls: 0 }).doNow).toBe("Bring a roll and fit it.");
  });

  it("send a person to the display when the printer gives no reason", () => {
    expect(wordsOf({}).headline).toBe("Sorrel's printer has stopped: look at its display.");
  });

  it("say of a printer that gives no reason and finishes nothing what can be seen", () => {
    const words = wordsOf({ reasons: ["no-sheet-finished"], queuedJobs: 3 });
    expect(words.headline).toBe("Sorrel's printer prints nothing though prints wait: look at its display.");
    expect(words.detail).toBe("It has not printed since 18:00. 3 prints wait.");
  });

  it("show an unknown keyword as it is", () => {
    expect(reasonWords("spider-in-tray")).toBe('says "spider-in-tray"');
    expect(wordsOf({ reasons: ["spider-in-tray"] }).headline).toBe(
      'Sorrel\'s printer says "spider-in-tray": look at its display.',
    );
  });

  it.each(rfc8011Reasons)("are plain for %s (RFC 8011 section 5.4.12)", (keyword) => {
    expect(reasonWords(keyword)).not.toContain('"');
    expect(reasonWords(keyword)).not.toMatch(/[a-z]-(low|empty|missing|jam|temp|full)/);
    const { headline } = wordsOf({ reasons: [keyword] });
    expect(headline).toContain(`Sorrel's printer ${reasonWords(keyword)}: `);
  });

  it("differ for every keyword", () => {
    expect(new Set(rfc8011Reasons.map(reasonWords)).size).toBe(rfc8011Reasons.length);
    expect(reasonWords("none")).toBe("has nothing to report");
  });
});

describe("the words of paper that runs low", () => {
  const low = {
    matter: "mediaLow",
    sheetsLeft: 62,
    emptyAtMs: sixAtMs + 205 * minuteMs,
    spareRolls: 1,
  } as const;

  it("name the latest moment while there is time", () => {
    expect(wordsOf({ ...low, severity: "plan", byAtMs: sixAtMs + 160 * minuteMs }, "Sorrel", true)).toEqual({
      headline: "The trailer Sorrel needs a roll by 20:40.",
      doNow: "Fit the spare roll by 20:40.",
      detail: "Left as it is, the 62 sheets end about 21:25. One spare roll is there.",
      chip: "By 20:40",
    });
  });

  it("say now when there is none", () => {
    expect(wordsOf({ ...low, emptyAtMs: sixAtMs + 40 * minuteMs, spareRolls: 0 })).toEqual({
      headline: "Sorrel runs out of paper about 18:40: bring a roll and fit it now.",
      doNow: "Bring a roll and fit it now.",
      detail: "Left as it is, the 62 sheets end about 18:40. No spare is left at the booth.",
      chip: "Now",
    });
    expect(wordsOf({ ...low, sheetsLeft: 0, emptyAtMs: null }).headline).toBe(
      "Sorrel has no paper left: fit the spare roll now.",
    );
  });
});

it("the words of an empty roll leave out the spares when nobody knows of them", () => {
  expect(wordsOf({ matter: "mediaLow", sheetsLeft: 0 }).detail).toBe("Empty since 18:00.");
});

describe("the words of heat", () => {
  const hot = { matter: "tooHot", insideC: 41, limitC: 40 } as const;

  it("say what to do, the limit, and that people have none of it to spare", () => {
    expect(wordsOf(hot, "Sorrel", true)).toEqual({
      headline: "The trailer Sorrel is too hot for its printer at 41 °C: give it shade and air now.",
      doNow: "Put the awning out and open the doors on the shady side.",
      detail:
        "Too hot since 18:00. The printer's limit is 40 °C. The printer's limit is no limit for people: " +
        "nobody stays in a closed booth or trailer in this heat.",
      chip: "Now",
    });
  });

  it("name the latest moment while it only comes near", () => {
    const words = wordsOf({ ...hot, insideC: 39, severity: "plan", byAtMs: sixAtMs + 10 * minuteMs });
    expect(words.headline).toBe("Sorrel needs shade and air by 18:10, or its printer gets too hot.");
    expect(words.chip).toBe("By 18:10");
  });
});

it("the words of silence say for how long, and that nothing is lost", () => {
  expect(wordsOf({ matter: "agentSilent" }, "Marigold")).toEqual({
    headline: "Marigold has been silent for 29 minutes.",
    doNow: "Ask at the booth whether it prints, then look at its network.",
    detail: "Last heard at 18:00. What it counts meanwhile comes in later.",
    chip: "Silent",
  });
});

describe("the words of spares that are short", () => {
  const short = { matter: "sparesShort", severity: "plan", spareRolls: 1, rollsNeeded: 3 } as const;

  it("say how many rolls to bring by when, and when all that is there ends", () => {
    const times = { byAtMs: sixAtMs + 190 * minuteMs, emptyAtMs: sixAtMs + 220 * minuteMs };
    expect(wordsOf({ ...short, ...times })).toEqual({
      headline: "Sorrel needs 2 more rolls by 21:10, beside what is there.",
      doNow: "Bring 2 more rolls by 21:10.",
      detail: "Spares and all, the paper there ends about 21:40. One spare roll is there.",
      chip: "By 21:10",
    });
  });

  it("ask for one roll at least, and for none by a time that nobody knows", () => {
    expect(wordsOf({ ...short, rollsNeeded: 1 })).toMatchObject({
      doNow: "Bring one more roll before the close.",
      chip: "Soon",
    });
  });
});

describe("the words of a count in doubt", () => {
  it("ask the one question, and say what is counted on until it is answered", () => {
    const question = { ask: "fitted", atMs: sixAtMs + 112 * minuteMs, sheets: 400 } as const;
    expect(wordsOf({ matter: "countDoubtful", question, sheetsLeft: 61 })).toEqual({
      headline: "Sorrel: was a new roll fitted at 19:52?",
      doNow: "Ask at the booth, and answer on its page.",
      detail:
        "It looks as if a roll was fitted at 19:52, and nobody said so. Until somebody answers, 61 are counted on.",
      chip: "Check",
    });
  });

  it("ask for a count when meter and count disagree", () => {
    const question = { ask: "left", atMs: sixAtMs, sheets: 200 } as const;
    expect(wordsOf({ matter: "countDoubtful", question })).toMatchObject({
      headline: "Sorrel: how many sheets are left?",
      detail: "Meter and count disagree since 18:00.",
    });
  });
});

it("the words of two counts that differ say both, and that nothing is to be done", () => {
  const difference = {
    ...{ quantity: "pitches" as const, counted: 54, other: 60, otherBy: "counter", sinceAtMs: sixAtMs },
  };
  expect(wordsOf({ matter: "countsDiffer", severity: "note", difference })).toEqual({
    headline: "Sorrel's two counts of prints do not agree.",
    doNow: "Nothing now: the report will print both.",
    detail: "They differ since 18:00. 54 are counted, and the printer's own counter shows 60.",
    chip: "Counts",
  });
});

describe("the words of the booth's computer, air and evening", () => {
  it("say how long the battery lasts, or that nobody knows", () => {
    const off = { matter: "onBattery", severity: "plan", batteryPct: 64 } as const;
    expect(wordsOf({ ...off, batteryMin: 95 }).headline).toBe(
      "Sorrel runs on its battery for about 95 minutes: plug it in.",
    );
    expect(wordsOf(off)).toMatchObject({
      headline: "Sorrel runs on its battery at 64 %: plug it in.",
      detail: expect.stringContaining("How long it lasts is not known yet.") as string,
    });
    expect(wordsOf({ ...off, batteryPct: null }).headline).toBe("Sorrel runs on its battery: plug it in.");
  });

  it("say how long to leave a cold printer off, and that nothing wet is switched on", () => {
    const cold = { matter: "condensation", severity: "plan", caseC: 6, dewPointC: 14, waitMin: 38 } as const;
    expect(wordsOf(cold)).toMatchObject({
      headline: "Sorrel came in cold: leave its printer off for 38 minutes.",
      detail: expect.stringContaining("Switch nothing on that is wet.") as string,
    });
    expect(wordsOf({ ...cold, waitMin: null }).doNow).toBe("Leave its printer off until it is dry.");
  });

  it("warn of heat for people as one thermometer, and of a closed trailer", () => {
    const heat = { matter: "heatForGuests", severity: "actNow", heatIndexC: 41 } as const;
    expect(wordsOf(heat).detail).toContain("no safety device");
    expect(wordsOf(heat).detail).not.toContain("closed trailer");
    expect(wordsOf(heat, "Sorrel", true).detail).toContain("no child or animal, stays in a closed trailer");
  });

  it("ask for a restart before the opening, and to put it off once guests are there", () => {
    const update = { matter: "updatePending", severity: "plan" } as const;
    expect(wordsOf({ ...update, byAtMs: sixAtMs }).doNow).toBe("Restart it by 18:00.");
    expect(wordsOf(update).doNow).toBe("Put it off until after the close.");
  });
});

describe("the words of heat and sun that are coming", () => {
  const warm = { matter: "tooHot", severity: "plan", insideC: 37, limitC: 40, byAtMs: sixAtMs } as const;

  it("say a small chance as one, and a large one as what will be", () => {
    expect(wordsOf({ ...warm, crossChance60: 0.32 }).detail).toContain("a chance of three in ten.");
    expect(wordsOf({ ...warm, crossChance60: 0.8 }).detail).toContain("it passes 40 °C about 18:00.");
  });

  it("say when the sun comes, until when, and what to do before", () => {
    const sun = { matter: "sunComing", severity: "plan", byAtMs: sixAtMs } as const;
    expect(wordsOf({ ...sun, untilAtMs: sixAtMs + 45 * minuteMs }, "Sorrel", true)).toEqual({
      headline: "The trailer Sorrel has the sun on its printer from 18:00.",
      doNow: "Put the awning out before it does.",
      detail: "Under a clear sky it comes in at 18:00 and stays on it until 18:45.",
      chip: "By 18:00",
    });
  });
});
