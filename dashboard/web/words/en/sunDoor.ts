/** The English texts of the way to the plan from above. */
export const sunDoor = {
  open: "Sun on the printer, from above",
  waiting: "Drawing the plan.",
  failed: "The plan could not be fetched; reload the page.",
};
