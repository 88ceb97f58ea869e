/** What is fetched when a booth's page is open: trying a later close, and what a person says of the paper. */
export { PaperActions } from "./PaperActions.tsx";
export { QuestionSheet } from "./QuestionSheet.tsx";
export { WhatIfs } from "./WhatIfs.tsx";
