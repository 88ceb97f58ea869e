/** The English texts that every form has. */
export const copying = { done: "Copied", failed: "Could not copy; mark the text by hand" };

export const form = {
  sending: "Sending…",
  cancel: "Cancel",
};
