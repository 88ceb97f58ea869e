import { describe, expect, it } from "vitest";
import { aBookedTime } from "../../support/aBooking.ts";
import { aMediaView, aPrinterView, aTally } from "../../support/aBoothView.ts";
import { idle, jam, roll } from "../../support/aJam.ts";
import { aScene } from "../../support/aScene.ts";
import { minuteMs, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";
import { judgedOf } from "../../support/judgedOf.ts";
import { rfc8011Reasons } from "../../support/rfc8011Reasons.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;
const away = aBookedTime({ openAtMs: at(20 * 60), closeAtMs: at(25 * 60) });
const soon = aBookedTime({ openAtMs: at(180), closeAtMs: at(400) });

describe("printerStopped", () => {
  it("is for now while the booth is open, with its reason, its beginning and what waits", () => {
    const scene = aScene(62, [idle, roll, jam, [61, "queue", { queuedJobs: 3 }]]);
    expect(judgedOf("printerStopped", scene)).toMatchObject({
      ...{ stands: "holds", severity: "actNow", reasons: ["media-jam"], queuedJobs: 3 },
      ...{ since: { atMs: at(60), isAtLatest: false }, sheetsLeft: 400, spareRolls: 1 },
    });
  });

  it("is for soon while they set up, and good to know otherwise", () => {
    expect(judgedOf("printerStopped", aScene(62, [jam], { booking: soon }))).toMatchObject({
      severity: "plan",
    });
    expect(judgedOf("printerStopped", aScene(62, [jam], { booking: away }))).toMatchObject({
      severity: "note",
    });
    expect(judgedOf("printerStopped", aScene(62, [jam], { booking: null }))).toMatchObject({
      severity: "note",
    });
  });

  it("leaves an open cover the time of a roll change", () => {
    const open: StoryLine = [60, "printerState", { state: "stopped", reasons: ["cover-open"] }];
    expect(judgedOf("printerStopped", aScene(62.9, [open])).stands).toBe("lingers");
    expect(judgedOf("printerStopped", aScene(63, [open])).stands).toBe("holds");
  });

  it("is clear for a warning, and unseen without a printer or behind a source without a value", () => {
    const warned: StoryLine = [60, "printerState", { state: "processing", reasons: ["media-low-warning"] }];
    expect(judgedOf("printerStopped", aScene(62, [warned])).stands).toBe("clear");
    expect(judgedOf("printerStopped", aScene(62, [roll])).stands).toBe("unseen");
    expect(judgedOf("printerStopped", aScene(62, [jam, [61, "sourceState"]])).stands).toBe("unseen");
  });

  it.each(rfc8011Reasons)(
    "judges %s as an error to stop the printer (RFC 8011 section 5.4.12)",
    (keyword) => {
      const lines: StoryLine[] = [
        [50, "printerState", { state: "processing", reasons: [`${keyword}-error`] }],
      ];
      expect(judgedOf("printerStopped", aScene(62, lines))).toMatchObject({
        stands: "holds",
        reasons: [keyword],
      });
    },
  );
});

describe("a printer that finishes nothing", () => {
  const stalled = {
    ...{ media: aMediaView(), counts: aTally() },
    printer: aPrinterView({ state: "processing", queuedJobs: 3, stalledSinceAtMs: at(110) }),
  };

  it("is stopped as well, since its last sheet, for a reason of our own", () => {
    const waiting: StoryLine = [100, "queue", { queuedJobs: 3 }];
    expect(judgedOf("printerStopped", aScene(120, [idle, waiting], { shown: stalled }))).toMatchObject({
      ...{ stands: "holds", severity: "actNow", reasons: ["no-sheet-finished"], queuedJobs: 3 },
      since: { atMs: at(110), isAtLatest: false },
    });
  });

  it("is said by the printer's own reason where it has one", () => {
    const judged = judgedOf("printerStopped", aScene(120, [idle, jam], { shown: stalled }));
    expect(judged).toMatchObject({ reasons: ["media-jam"], since: { atMs: at(60) } });
  });
});
