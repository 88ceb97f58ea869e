import type { BoothBox } from "@boothward/shared-types/site";
import type { Refusal } from "../state/api.ts";
import type { Units } from "../../alerts/format.ts";
import { metresOf } from "../words/lengths.ts";
import type { Written } from "./readForm.ts";

/** Where an opening is: in the middle of its foot along one of four walls, or anywhere at a bearing. */
export type Wall = "left" | "right" | "front" | "rear" | "bearing";

type Opening = BoothBox["openings"][number];

const bearings = { front: 0, right: 90, rear: 180, left: 270 } as const;
const handM = 0.1;

/** The wall an opening is in, and how far along it: from the rear on the sides, from the left at front and rear. */
export function wallOfOpening(opening: Opening, box: BoothBox): { wall: Wall; alongM: number } {
  const bearing = (opening.bearingDeg + 360) % 360;
  const is = (wall: keyof typeof bearings, offM: number) =>
    bearing === bearings[wall] && Math.abs(offM) <= handM;
  if (is("left", opening.xM)) return { wall: "left", alongM: opening.yM };
  if (is("right", opening.xM - box.widthM)) return { wall: "right", alongM: opening.yM };
  if (is("front", opening.yM - box.lengthM)) return { wall: "front", alongM: opening.xM };
  if (is("rear", opening.yM)) return { wall: "rear", alongM: opening.xM };
  return { wall: "bearing", alongM: 0 };
}

type Figure = number | string | null;

/**
 * A booth's walls as the dashboard wants them, from what was written in the reader's units. What cannot be read is
 * sent as it is, for the dashboard to refuse by its field.
 */
export function boxBody(written: Pick<Written, "text" | "number" | "has">, units: Units) {
  const length = (name: string): Figure => {
    const figure = written.number(name);
    return typeof figure === "number" ? metresOf(figure, units) : figure;
  };
  const size = { widthM: length("box.widthM"), lengthM: length("box.lengthM") };
  const openings = [];
  for (let at = "box.openings[0]"; written.has(`${at}.wall`); at = `box.openings[${openings.length}]`)
    openings.push(openingBody(at, written, length, size));
  return {
    ...{ ...size, heightM: length("box.heightM"), openings },
    printer: {
      xM: length("box.printer.xM"),
      yM: length("box.printer.yM"),
      heightM: length("box.printer.heightM"),
    },
  };
}

function openingBody(
  at: string,
  written: Pick<Written, "text" | "number">,
  length: (name: string) => Figure,
  size: { widthM: Figure; lengthM: Figure },
) {
  const [heightM, sillM, depthM] = [
    length(`${at}.heightM`),
    length(`${at}.sillM`) ?? 0,
    length(`${at}.awningM`),
  ];
  const topM = typeof heightM === "number" && typeof sillM === "number" ? sillM + heightM : heightM;
  const awningHeightM = written.number(`${at}.awningHeightM`) ?? topM;
  return {
    ...placeBody(at, written, length, size),
    ...{ widthM: length(`${at}.widthM`), heightM, sillM },
    overhang: depthM === null || depthM === 0 ? null : { depthM, heightM: awningHeightM },
  };
}

function placeBody(
  at: string,
  written: Pick<Written, "text" | "number">,
  length: (name: string) => Figure,
  size: { widthM: Figure; lengthM: Figure },
) {
  const along = length(`${at}.along`);
  switch (written.text(`${at}.wall`)) {
    case "left":
      return { xM: 0, yM: along, bearingDeg: bearings.left };
    case "right":
      return { xM: size.widthM, yM: along, bearingDeg: bearings.right };
    case "front":
      return { xM: along, yM: size.lengthM, bearingDeg: bearings.front };
    case "rear":
      return { xM: along, yM: 0, bearingDeg: bearings.rear };
    default:
      return {
        xM: length(`${at}.xM`),
        yM: length(`${at}.yM`),
        bearingDeg: written.number(`${at}.bearingDeg`),
      };
  }
}

/**
 * What the dashboard refuses of the walls, at the field that shows it. It names list places as `[0]` or `.0`, and
 * places as x and y, where the form asks for the wall and how far along it.
 */
export function boxRefusal(refusal: Refusal | null, walls: readonly Wall[], note: string): Refusal | null {
  if (refusal?.field == null || !refusal.field.startsWith("box.")) return refusal;
  const named = refusal.field.replace(/\.(\d+)(?=\.|$)/g, "[$1]");
  const prefix = `${refusal.field}: `;
  const plain = refusal.sentence.startsWith(prefix)
    ? refusal.sentence.slice(prefix.length)
    : refusal.sentence;
  const [, at = "", index = "", part = ""] = /^(box\.openings\[(\d+)\])(.*)$/.exec(named) ?? [];
  const isWall = at !== "" && walls[Number(index)] !== "bearing";
  const field =
    at === ""
      ? named
      : part === "" || (isWall && part === ".bearingDeg")
        ? `${at}.wall`
        : isWall && (part === ".xM" || part === ".yM")
          ? `${at}.along`
          : part.startsWith(".overhang")
            ? `${at}.awningM`
            : named;
  return { ...refusal, field, sentence: `${plain}${note}` };
}
