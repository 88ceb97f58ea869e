/** What a printer's reason is in plain words: what the printer does, and the one thing to do about it. */
export type ReasonText = {
  /** After "Sorrel's printer": short, the headline has to hold it beside the booth's name. */
  readonly says: string;
  /** After a colon: an instruction, without a full stop. */
  readonly doNow: string;
  /** Where the work can hurt somebody. */
  readonly caution?: string;
};

const hotHead = "Parts inside may be hot: touch only what the printer's maker says.";
const movingParts = "Keep fingers and sleeves away from moving parts.";

/** Every keyword of RFC 8011 section 5.4.12 but `none`, and one of our own for a stop that no printer named. */
const texts: ReadonlyMap<string, ReasonText> = new Map(
  Object.entries({
    "media-jam": { says: "is jammed", doNow: "open it, take the paper out, close it", caution: hotHead },
    "media-empty": { says: "is out of paper", doNow: "fit the spare roll" },
    "media-needed": { says: "asks for paper", doNow: "fit the spare roll" },
    "media-low": { says: "is low on paper", doNow: "have the spare roll ready" },
    "marker-supply-empty": { says: "is out of ribbon", doNow: "fit a new roll with its ribbon" },
    "marker-supply-low": { says: "is low on ribbon", doNow: "have the spare roll ready" },
    "marker-waste-full": { says: "has a full waste box", doNow: "empty the waste box" },
    "marker-waste-almost-full": { says: "has a nearly full waste box", doNow: "empty it at the next lull" },
    "cover-open": { says: "has its cover open", doNow: "close the cover" },
    "door-open": { says: "has its door open", doNow: "close the door" },
    "interlock-open": { says: "has a cover or door open", doNow: "close them all", caution: movingParts },
    "input-tray-missing": { says: "has no paper tray", doNow: "push the paper tray in" },
    "output-tray-missing": { says: "has no tray for prints", doNow: "put the tray back" },
    "output-area-full": { says: "has a full tray of prints", doNow: "take the prints out" },
    "output-area-almost-full": { says: "has a nearly full tray of prints", doNow: "take the prints out" },
    "toner-empty": { says: "is out of toner", doNow: "fit a new cartridge" },
    "toner-low": { says: "is low on toner", doNow: "have a cartridge ready" },
    "developer-empty": { says: "is out of developer", doNow: "fit new developer" },
    "developer-low": { says: "is low on developer", doNow: "have developer ready" },
    "opc-life-over": { says: "has a worn-out drum", doNow: "fit a new drum" },
    "opc-near-eol": { says: "has a drum near its end", doNow: "have a drum ready" },
    "fuser-over-temp": { says: "is too hot inside", doNow: "let it cool, covers closed", caution: hotHead },
    "fuser-under-temp": { says: "is still too cold inside", doNow: "let it warm up" },
    shutdown: { says: "is switched off", doNow: "switch it on" },
    "timed-out": { says: "does not answer", doNow: "check its cable, then switch it off and on" },
    "connecting-to-device": { says: "is not reached yet", doNow: "check its cable" },
    paused: { says: "is paused", doNow: "resume it at the booth's computer" },
    "moving-to-paused": { says: "is being paused", doNow: "resume it at the booth's computer" },
    stopping: { says: "is stopping", doNow: "look at its display" },
    "stopped-partly": { says: "has stopped in part", doNow: "look at its display" },
    "spool-area-full": { says: "has no room for more jobs", doNow: "cancel old jobs" },
    "interpreter-resource-unavailable": { says: "cannot draw a page", doNow: "send that print again" },
    "no-sheet-finished": { says: "prints nothing though prints wait", doNow: "look at its display" },
    other: { says: "has a trouble without a name", doNow: "look at its display" },
  }),
);

/** The longest unknown keyword that still fits a headline. */
const longestKeyword = 32;

/** The text for one keyword, without suffix; a keyword nobody knows is shown as it is. */
export function reasonText(keyword: string): ReasonText {
  const known = texts.get(keyword);
  if (known !== undefined) return known;
  const shown =
    keyword.length <= longestKeyword ? keyword : `${keyword.slice(0, longestKeyword - 1).trimEnd()}…`;
  return { says: `says "${shown}"`, doNow: "look at its display" };
}

/** One keyword in plain words after "the printer", such as "is jammed"; unknown ones as they are, in full. */
export function reasonWords(keyword: string): string {
  if (keyword === "none") return "has nothing to report";
  return texts.get(keyword)?.says ?? `says "${keyword}"`;
}
