/** What is fetched when a booth's page is open: trying a later close, what a person says of the paper, the facts. */
export { Facts } from "./Facts.tsx";
export { PaperActions } from "./PaperActions.tsx";
export { QuestionSheet } from "./QuestionSheet.tsx";
export { WhatIfs } from "./WhatIfs.tsx";
