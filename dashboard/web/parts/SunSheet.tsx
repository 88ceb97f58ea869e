import type { BoothView } from "@boothward/shared-types/view";
import { useState } from "preact/hooks";
import { nameOf } from "../words/en/today.ts";
import { later } from "./later.tsx";
import { sunPlan as words } from "../words/en/sun.ts";

export const SunPlan = later(
  () => import("../sun/SunPlan.tsx").then((file) => file.SunPlan),
  ({ hasFailed }) => <p role="status">{hasFailed ? words.failed : words.waiting}</p>,
);

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
      {isOpen && <SunPlan title={title} box={booth.box} planned={booking} />}
    </section>
  );
}
