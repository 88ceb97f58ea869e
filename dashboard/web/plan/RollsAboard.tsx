import { loadedRolls } from "@boothward/shared-types/stock";
import { FormRefusal } from "../parts/Field.tsx";
import { usePage } from "../state/pageContext.ts";
import { useAnswer } from "../state/useAnswer.ts";
import { useSend } from "../state/useSend.ts";
import { loadOutWords as words } from "../words/en/plan.ts";

type RollsAboardProps = {
  bookingId: string;
  boothName: string;
  /** How many the list asks for. */
  rolls: number;
  isIn: boolean;
};

/** Rolls that are ticked may be moved in the ledger too, where the store has them, and be put back. */
export function RollsAboard({ bookingId, boothName, rolls, isIn }: RollsAboardProps) {
  const page = usePage();
  const address = `/api/bookings/${encodeURIComponent(bookingId)}/loaded`;
  const { answer, again } = useAnswer(address, loadedRolls);
  const { refusal, isBusy, send } = useSend();
  const moved = answer?.moved ?? 0;
  const write = async (n: number) => {
    if ((await send(() => page.call("PUT", address, loadedRolls, { rolls: n }))) !== null) await again();
  };
  const isOffered = isIn && moved === 0 && rolls > 0 && (answer?.inStore ?? 0) >= rolls;
  return (
    <div class="noprint" role="status">
      <FormRefusal refusal={refusal} shown={[]} />
      {moved > 0 && <p class="small">{words.moved(moved, boothName)}</p>}
      {moved > 0 && (
        <button type="button" class="btn" disabled={isBusy} onClick={() => void write(0)}>
          {words.putBack}
        </button>
      )}
      {isOffered && (
        <button type="button" class="btn" disabled={isBusy} onClick={() => void write(rolls)}>
          {words.move(rolls, boothName)}
        </button>
      )}
    </div>
  );
}
