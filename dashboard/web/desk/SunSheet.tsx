import type { BoothView } from "@boothward/shared-types/view";
import { useState } from "preact/hooks";
import { nameOf } from "../words/en/today.ts";
import { LaterSunPlan } from "../parts/LaterSunPlan.tsx";
import { sunDoor as words } from "../words/en/sunDoor.ts";

/** The way to the plan from above on the page of a booth that stands outside, or of which the walls are known. */
export function SunSheet({ booth }: { booth: BoothView }) {
  const [isOpen, setOpen] = useState(false);
  if (!booth.isTrailer && booth.box === null) return null;
  const { booking } = booth;
  const title = [nameOf(booth.name, booth.isTrailer), ...(booking === null ? [] : [booking.place])].join(
    " · ",
  );
  return (
    <section class="sheet">
      <button type="button" class="link toggle" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
        {words.open}
      </button>
      {isOpen && <LaterSunPlan title={title} box={booth.box} planned={booking} />}
    </section>
  );
}
