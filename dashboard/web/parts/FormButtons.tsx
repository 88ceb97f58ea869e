import { form as words } from "../words/en/form.ts";

/** The end of a form: the button that sends it, and one that leaves it where there is something to go back to. */
export function FormButtons(props: { isBusy: boolean; word: string; cancel: (() => void) | null }) {
  return (
    <div class="row">
      <button class="btn main" disabled={props.isBusy}>
        {props.isBusy ? words.sending : props.word}
      </button>
      {props.cancel !== null && (
        <button type="button" class="btn" onClick={props.cancel}>
          {words.cancel}
        </button>
      )}
    </div>
  );
}
