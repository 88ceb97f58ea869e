import { Icon } from "../parts/Icon.tsx";
import { me } from "../state/signals.ts";
import { loadOutWords as words } from "../words/en/plan.ts";

/** From a list of a booking back to where it was opened: the run sheet, or an attendant's opening checks. */
export function BackFromPlan({ boothId }: { boothId: string | null }) {
  const isOwner = me.value.role === "owner" || boothId === null;
  return (
    <a class="back" href={isOwner ? "/run-sheet" : `/booths/${encodeURIComponent(boothId)}/checks`}>
      <Icon name="back" />
      {isOwner ? words.back : words.backToChecks}
    </a>
  );
}
