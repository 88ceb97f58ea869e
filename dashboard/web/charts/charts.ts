/** What is fetched after the first view: Chart.js and the two charts of a booth's page. */
export { HeatCurve } from "./HeatCurve.tsx";
export { SessionBars } from "./SessionBars.tsx";
