/** The English texts around every page. One folder is one language, one file what one part of it needs. */
export const tabs = {
  today: "Today",
  alerts: "Alerts",
  runSheet: "Run sheet",
  stock: "Stock",
  reports: "Reports",
  setUp: "Set-up",
  more: "More",
  pages: "Pages",
};

export const link = {
  down: (age: string) => `The dashboard cannot be reached; trying again. What you see is ${age} old.`,
  noUplink: (clock: string) =>
    `The dashboard has been without a network since ${clock}: it cannot hear the booths or tell anybody.`,
  clockStepped: (clock: string) =>
    `The clock of the dashboard's computer jumped at ${clock}. Booths that seem silent may not be.`,
  downEmpty: "The dashboard cannot be reached; trying again.",
};

export const failed = {
  unreachable: "The dashboard cannot be reached. Nothing was saved; try again.",
  report: "The report cannot be reached. Try again in a moment.",
  unreadable: "The dashboard gave an answer that this page cannot read. Reload the page.",
};

export const asking = "Asking how the booths are.";
export const askingReport = "Asking for your report.";
