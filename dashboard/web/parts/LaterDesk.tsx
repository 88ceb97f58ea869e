import { later } from "./later.tsx";

/** What is asked and said of the paper, on the booth's page and on the attendant's; it comes once they stand. */
export const QuestionSheet = later(
  () => import("../desk/desk.ts").then((file) => file.QuestionSheet),
  () => <section class="sheet waiting" />,
);
export const PaperActions = later(
  () => import("../desk/desk.ts").then((file) => file.PaperActions),
  () => <section class="sheet waiting" />,
);
