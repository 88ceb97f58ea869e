/** What is fetched after the first view: Chart.js and the curve of a booth's page. */
export { HeatCurve } from "./HeatCurve.tsx";
