import { useEffect } from "preact/hooks";
import { usePage } from "./pageContext.ts";
import { booths } from "./signals.ts";

/** The names of the booths this person may see, once the live line told them. */
export function useBoothNames(): string[] {
  const page = usePage();
  useEffect(() => page.listen(), [page]);
  return booths.value.map(({ name }) => name);
}
