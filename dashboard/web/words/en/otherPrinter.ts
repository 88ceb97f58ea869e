/** The English texts of another printer that takes over. */
export const otherPrinter = {
  sheets: "Sheets on the roll of the printer that takes over",
  hint: "The roll in the first one counts as set aside. If the other one has a queue of its own, write that queue in the agent's file on the booth computer.",
  swap: "It prints now",
};
