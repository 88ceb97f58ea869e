import type { Store } from "../../dashboard/store/openStore.ts";

/** The same store, with a count of how often facts were read from it; `onRead` is called before each. */
export function countingReads(store: Store, onRead: () => void = () => undefined) {
  let reads = 0;
  const counting: Store = {
    ...store,
    boothItems: {
      ...store.boothItems,
      factsBetween: (...asked) => {
        reads += 1;
        onRead();
        return store.boothItems.factsBetween(...asked);
      },
    },
  };
  return { store: counting, reads: () => reads };
}
