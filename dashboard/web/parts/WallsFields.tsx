import type { BoothBox } from "@boothward/shared-types/site";
import { useState } from "preact/hooks";
import type { Refusal } from "../state/api.ts";
import { units } from "../state/signals.ts";
import { boothForm } from "../words/en/setUp.ts";
import { lengthSign, shownLength } from "../words/lengths.ts";
import type { Wall } from "./boxBody.ts";
import { wallOfOpening } from "./boxBody.ts";
import { Choice, Field } from "./Field.tsx";

const words = boothForm.walls;

type WallsProps = {
  box: BoothBox | null;
  refusal: Refusal | null;
  walls: readonly Wall[];
  setWalls: (walls: readonly Wall[]) => void;
};

/** The walls each opening of a box is in; one on the left where nothing is known yet. */
export function wallsOf(box: BoothBox | null): Wall[] {
  return box === null ? ["left"] : box.openings.map((opening) => wallOfOpening(opening, box).wall);
}

/** How a trailer is built, as far as the sun asks for it: its size, its openings, where the printer stands. */
export function WallsFields({ box, refusal, walls, setWalls }: WallsProps) {
  // Rows keep their fields when one before them is taken out.
  const [keys, setKeys] = useState(() => walls.map((_, index) => index));
  const takeOut = (index: number) => {
    setKeys(keys.filter((_, each) => each !== index));
    setWalls(walls.filter((_, each) => each !== index));
  };
  const add = () => {
    setKeys([...keys, Math.max(-1, ...keys) + 1]);
    setWalls([...walls, "left"]);
  };
  const sign = lengthSign(units.value);
  return (
    <fieldset class="field walls">
      <legend>{words.title}</legend>
      <p class="small">{words.lead(sign)}</p>
      <div class="two">
        {(["lengthM", "widthM", "heightM"] as const).map((name) => (
          <Length
            key={name}
            name={`box.${name}`}
            label={words[name]}
            metres={box?.[name] ?? null}
            refusal={refusal}
          />
        ))}
      </div>
      {walls.map((wall, index) => (
        <OpeningRow
          key={keys[index]}
          index={index}
          wall={wall}
          box={box}
          opening={box?.openings[keys[index] ?? -1] ?? null}
          choose={(chosen) => setWalls(walls.map((each, at) => (at === index ? chosen : each)))}
          takeOut={walls.length > 1 ? () => takeOut(index) : null}
          refusal={refusal}
        />
      ))}
      <button type="button" class="btn" onClick={add}>
        {words.add}
      </button>
      <fieldset class="field">
        <legend>{words.printer}</legend>
        <div class="two">
          {(["xM", "yM", "heightM"] as const).map((name) => (
            <Length
              key={name}
              name={`box.printer.${name}`}
              label={words.printerPlace[name]}
              metres={box?.printer[name] ?? null}
              refusal={refusal}
            />
          ))}
        </div>
      </fieldset>
    </fieldset>
  );
}

type OpeningRowProps = {
  index: number;
  wall: Wall;
  box: BoothBox | null;
  opening: BoothBox["openings"][number] | null;
  choose: (wall: Wall) => void;
  takeOut: (() => void) | null;
  refusal: Refusal | null;
};

function OpeningRow({ index, wall, box, opening, choose, takeOut, refusal }: OpeningRowProps) {
  const at = `box.openings[${index}]`;
  const isSide = wall === "left" || wall === "right";
  const alongM = opening === null || box === null ? null : wallOfOpening(opening, box).alongM;
  return (
    <fieldset class="field opening">
      <legend>{words.opening(index + 1)}</legend>
      <div class="two">
        <Choice
          name={`${at}.wall`}
          label={words.wall}
          value={wall}
          refusal={refusal}
          onChoose={(chosen) => choose(chosen as Wall)}
        >
          {(["left", "right", "front", "rear", "bearing"] as const).map((each) => (
            <option key={each} value={each}>
              {words.walls[each]}
            </option>
          ))}
        </Choice>
        {wall === "bearing" ? (
          <>
            <Field
              name={`${at}.bearingDeg`}
              label={words.bearing}
              inputmode="decimal"
              required
              defaultValue={opening?.bearingDeg.toString() ?? ""}
              refusal={refusal}
            />
            <Length name={`${at}.xM`} label={words.fromLeft} metres={opening?.xM ?? null} refusal={refusal} />
            <Length name={`${at}.yM`} label={words.fromRear} metres={opening?.yM ?? null} refusal={refusal} />
          </>
        ) : (
          <Length
            name={`${at}.along`}
            label={isSide ? words.fromRear : words.fromLeft}
            metres={alongM}
            refusal={refusal}
          />
        )}
        {(["widthM", "heightM"] as const).map((name) => (
          <Length
            key={name}
            name={`${at}.${name}`}
            label={words.openingSize[name]}
            metres={opening?.[name] ?? null}
            refusal={refusal}
          />
        ))}
        <Length name={`${at}.sillM`} label={words.sill} metres={opening?.sillM ?? 0} refusal={refusal} />
        <Length
          name={`${at}.awningM`}
          label={words.awning}
          metres={opening?.overhang?.depthM ?? null}
          isOptional
          refusal={refusal}
        />
      </div>
      {opening?.overhang != null && (
        <input type="hidden" name={`${at}.awningHeightM`} value={opening.overhang.heightM} />
      )}
      {takeOut !== null && (
        <button type="button" class="btn" onClick={takeOut}>
          {words.takeOut(index + 1)}
        </button>
      )}
    </fieldset>
  );
}

type LengthProps = {
  name: string;
  label: string;
  metres: number | null;
  isOptional?: boolean;
  refusal: Refusal | null;
};

/** A length in the reader's units. */
function Length({ name, label, metres, isOptional = false, refusal }: LengthProps) {
  return (
    <Field
      name={name}
      label={words.inUnit(label, lengthSign(units.value))}
      inputmode="decimal"
      required={!isOptional}
      defaultValue={metres === null ? "" : String(shownLength(metres, units.value))}
      refusal={refusal}
    />
  );
}
