import { attend as words } from "../words/en/attend.ts";
import { isBellOn, turnBellOn } from "./bell.ts";

/** One tap that lets the open page ring. */
export function SoundButton() {
  if (isBellOn.value)
    return (
      <p class="small" role="status">
        {words.soundIsOn}
      </p>
    );
  return (
    <button type="button" class="btn" onClick={() => void turnBellOn()}>
      {words.soundOn}
    </button>
  );
}
