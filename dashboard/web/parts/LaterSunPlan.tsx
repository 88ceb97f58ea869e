import { sunDoor as words } from "../words/en/sunDoor.ts";
import { later } from "./later.tsx";

/** The plan from above, fetched when it is first opened. */
export const LaterSunPlan = later(
  () => import("../sun/SunPlan.tsx").then((file) => file.SunPlan),
  ({ hasFailed }) => <p role="status">{hasFailed ? words.failed : words.waiting}</p>,
);
