import { useState } from "preact/hooks";
import type { BoothEntry } from "../state/apiShapes.ts";
import { madeBooth } from "../state/apiShapes.ts";
import { usePage } from "../state/pageContext.ts";
import { units } from "../state/signals.ts";
import { useSend } from "../state/useSend.ts";
import { boothForm as words } from "../words/en/setUp.ts";
import { boxBody, boxRefusal } from "./boxBody.ts";
import type { Wall } from "./boxBody.ts";
import { Field, FormRefusal } from "./Field.tsx";
import { FormButtons } from "./FormButtons.tsx";
import { readForm } from "./readForm.ts";
import { WallsFields, wallsOf } from "./WallsFields.tsx";

/** Sheets of the usual roll, and a limit that suits most printers' manuals (common practice, no source). */
const usual = { name: "", isTrailer: false, kitSheets: 400, limitC: 40, box: null };

const shown = ["name", "kitSheets", "limitC"];

const shownOf = (walls: readonly Wall[]): string[] => [
  ...["box.lengthM", "box.widthM", "box.heightM"],
  ...["box.printer.xM", "box.printer.yM", "box.printer.heightM"],
  ...walls.flatMap((wall, index) =>
    [
      ...["wall", "widthM", "heightM", "sillM", "awningM"],
      ...(wall === "bearing" ? ["bearingDeg", "xM", "yM"] : ["along"]),
    ].map((name) => `box.openings[${index}].${name}`),
  ),
];

/** Adds a booth, or changes one; `done` gets its id. */
export function BoothForm(props: {
  booth: BoothEntry | null;
  done: (boothId: string, name: string) => void;
  cancel: (() => void) | null;
}) {
  const page = usePage();
  const { refusal: refused, isBusy, send } = useSend();
  const booth = props.booth ?? usual;
  const [isTrailer, setTrailer] = useState(booth.isTrailer);
  const [isMeasured, setMeasured] = useState(booth.box !== null);
  const [walls, setWalls] = useState<readonly Wall[]>(() => wallsOf(booth.box));
  const hasWalls = isTrailer && isMeasured;
  const isUs = units.value === "us";
  const refusal = boxRefusal(refused, walls, isUs ? words.walls.inMetres : "");
  const shownLimit = isUs ? Math.round(booth.limitC * 1.8 + 32) : booth.limitC;

  const submit = async (event: SubmitEvent) => {
    const written = readForm(event);
    const limit = written.number("limitC");
    const body = {
      name: written.text("name"),
      isTrailer: written.has("isTrailer"),
      kitSheets: written.number("kitSheets"),
      limitC: isUs && typeof limit === "number" ? Math.round((limit - 32) / 0.18) / 10 : limit,
      box: hasWalls ? boxBody(written, units.value) : null,
    };
    const made = await send(() =>
      props.booth === null
        ? page.call("POST", "/api/booths", madeBooth, body)
        : page.call("PUT", `/api/booths/${encodeURIComponent(props.booth.boothId)}`, madeBooth, body),
    );
    if (made !== null) props.done(made.boothId, body.name);
  };

  return (
    <form onSubmit={(event) => void submit(event)}>
      <Field
        name="name"
        label={words.name}
        required
        maxlength={60}
        defaultValue={booth.name}
        refusal={refusal}
      />
      <label class="pick">
        <input
          type="checkbox"
          name="isTrailer"
          checked={isTrailer}
          onChange={(event) => setTrailer(event.currentTarget.checked)}
        />
        {words.isTrailer}
      </label>
      <div class="two">
        <Field
          name="kitSheets"
          label={words.kitSheets}
          hint={words.kitHint}
          inputmode="numeric"
          required
          defaultValue={String(booth.kitSheets)}
          refusal={refusal}
        />
        <Field
          name="limitC"
          label={words.limit(isUs ? "°F" : "°C")}
          hint={words.limitHint}
          inputmode="decimal"
          required
          defaultValue={String(shownLimit)}
          refusal={refusal}
        />
      </div>
      {isTrailer && (
        <label class="pick">
          <input
            type="checkbox"
            checked={isMeasured}
            onChange={(event) => setMeasured(event.currentTarget.checked)}
          />
          {words.isMeasured}
        </label>
      )}
      {hasWalls && <WallsFields box={booth.box} refusal={refusal} walls={walls} setWalls={setWalls} />}
      <FormRefusal refusal={refusal} shown={hasWalls ? [...shown, ...shownOf(walls)] : shown} />
      <FormButtons
        isBusy={isBusy}
        word={props.booth === null ? words.add : words.save}
        cancel={props.cancel}
      />
    </form>
  );
}
