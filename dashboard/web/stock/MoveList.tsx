import type { MoveLine, StockView } from "@boothward/shared-types/stock";
import { FileIn } from "../parts/FileIn.tsx";
import { FormRefusal } from "../parts/Field.tsx";
import { TwoTaps } from "../parts/TwoTaps.tsx";
import { deviceZone } from "../state/signals.ts";
import { stockMoves as words } from "../words/en/stock.ts";
import type { Format } from "../../alerts/format.ts";
import { moveText } from "./moveText.ts";
import type { PlaceNames } from "./placeWords.ts";
import { useStockLine } from "./useStockLine.ts";

type MoveListProps = { names: PlaceNames; format: Format; changed: () => void };

/** The ledger, newest line first, with who wrote each and when; and the ledger as a file. */
export function MoveList(
  props: MoveListProps & { view: StockView; before: string | null; show: (before: string | null) => void },
) {
  const { view, before, show } = props;
  return (
    <section class="sheet">
      <h2>{words.title}</h2>
      {view.moves.length === 0 && <p>{words.none}</p>}
      <ul class="said">
        {view.moves.map((move) => (
          <Line key={move.moveId} move={move} {...props} />
        ))}
      </ul>
      {(view.olderBefore !== null || before !== null) && (
        <div class="row">
          {before !== null && (
            <button type="button" class="btn" onClick={() => show(null)}>
              {words.newest}
            </button>
          )}
          {view.olderBefore !== null && (
            <button type="button" class="btn" onClick={() => show(view.olderBefore)}>
              {words.older}
            </button>
          )}
        </div>
      )}
      <details>
        <summary>{words.files}</summary>
        <div class="row">
          <a
            class="btn"
            href={`/api/stock/moves.csv?zone=${encodeURIComponent(deviceZone)}`}
            download="stock.csv"
          >
            {words.download}
          </a>
        </div>
        <FileIn
          address="/api/stock/moves/import"
          label={words.upload}
          accept=".csv,.tsv,.txt,text/csv"
          bodyOf={(text) => ({ text, zone: deviceZone })}
          kept={props.changed}
        />
      </details>
    </section>
  );
}

function Line({ move, names, format, changed }: MoveListProps & { move: MoveLine }) {
  const { refusal, isBusy, write } = useStockLine(changed);
  const text = moveText(move, names);
  const details = [
    words.said(move.by, format.day(move.atMs), format.clock(move.atMs)),
    ...(move.found === null ? [] : [words.found(move.found)]),
    ...(move.isDerived ? [words.atBooth] : []),
    ...(move.isTakenBack ? [words.takenBack] : []),
    ...(move.note === null ? [] : [move.note]),
  ];
  const takeBack = () => void write(`/api/stock/moves/${encodeURIComponent(move.moveId)}/take-back`, {});
  return (
    <li>
      <span>
        {move.isTakenBack ? <s>{text}</s> : text}
        <small>{details.join(" · ")}</small>
      </span>
      {!move.isTakenBack && !move.isDerived && !isBusy && (
        <TwoTaps
          word={words.takeBack}
          ask={words.takeBackAsk}
          yes={words.takeBackYes}
          no={words.takeBackNo}
          act={takeBack}
        />
      )}
      <FormRefusal refusal={refusal} shown={[]} />
    </li>
  );
}
