import { Icon } from "../parts/Icon.tsx";

/** Something of the stock that a person has to look after. */
export function Owed({ sentence }: { sentence: string }) {
  return (
    <p class="owed">
      <Icon name="plan" />
      <span>{sentence}</span>
    </p>
  );
}
