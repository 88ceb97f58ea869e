/** What is fetched after the first view: the two pictures of a booth's page that are below its paper, with Chart.js. */
export { HeatCurve } from "./HeatCurve.tsx";
export { SessionBars } from "./SessionBars.tsx";
