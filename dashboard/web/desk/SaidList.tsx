import type { BoothView, SaidFact } from "@boothward/shared-types/view";
import { FormRefusal } from "../parts/Field.tsx";
import { TwoTaps } from "../parts/TwoTaps.tsx";
import { desk as words } from "../words/en/desk.ts";
import type { Format } from "../../alerts/format.ts";
import { saidText } from "../words/saidText.ts";
import { useSay } from "./useSay.ts";

/** What people said of the paper this evening, the latest first, each to be taken back. */
export function SaidList({ booth, format }: { booth: BoothView; format: Format }) {
  const { refusal, say } = useSay(booth.boothId);
  const said = booth.media?.said ?? [];
  if (said.length === 0) return null;
  const takeBack = ({ bootId, seq }: SaidFact) => void say({ kind: "takenBack", bootId, seq });
  return (
    <>
      <h3>{words.said}</h3>
      <FormRefusal refusal={refusal} shown={[]} />
      <ul class="said">
        {said.map((fact) => (
          <li key={`${fact.bootId} ${fact.seq}`}>
            <span>
              {fact.isTakenBack ? (
                <s>{saidText(fact.kind, fact.sheets, format)}</s>
              ) : (
                saidText(fact.kind, fact.sheets, format)
              )}
              <small>
                {`${fact.by ?? words.somebody}, ${format.clock(fact.atMs)}`}
                {fact.isTakenBack && ` · ${words.isTakenBack}`}
              </small>
            </span>
            {!fact.isTakenBack && (
              <TwoTaps
                word={words.takeBack}
                ask={words.takeBackAsk}
                yes={words.takeBackYes}
                no={words.takeBackNo}
                isGrave={false}
                act={() => takeBack(fact)}
              />
            )}
          </li>
        ))}
      </ul>
    </>
  );
}
