/** What is fetched when a booth's page is open: what is to be weighed or tried, what a person says of the paper, the facts. */
export { AdviceReasons, AdviceSheet } from "./AdviceSheet.tsx";
export { HeatTable, SessionTable } from "./ChartTables.tsx";
export { Facts } from "./Facts.tsx";
export { HeatAhead } from "./HeatAhead.tsx";
export { PaperTable } from "./PaperTable.tsx";
export { PaperActions } from "./PaperActions.tsx";
export { QuestionSheet } from "./QuestionSheet.tsx";
export { SunCaption } from "./SunCaption.tsx";
export { SunSheet } from "./SunSheet.tsx";
export { WhatIfs } from "./WhatIfs.tsx";
