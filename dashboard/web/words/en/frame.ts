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
  downEmpty: "The dashboard cannot be reached; trying again.",
};

export const failed = {
  unreachable: "The dashboard cannot be reached. Nothing was saved; try again.",
  report: "The report cannot be reached. Try again in a moment.",
  unreadable: "The dashboard gave an answer that this page cannot read. Reload the page.",
};

export const asking = "Asking how the booths are.";
export const askingReport = "Asking for your report.";
