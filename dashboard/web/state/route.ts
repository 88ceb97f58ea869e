export type Route =
  { screen: "today" | "runSheet" | "stock" | "setUp" | "signIn" | "firstRun" } | { screen: "booth"; boothId: string };

/** Which screen an address shows; what is not known shows Today. */
export function routeOf(path: string): Route {
  const [first = "", second = ""] = path.split("/").slice(1);
  if (first === "booths" && second !== "") return { screen: "booth", boothId: decodeURIComponent(second) };
  if (first === "run-sheet") return { screen: "runSheet" };
  if (first === "stock") return { screen: "stock" };
  if (first === "set-up") return { screen: "setUp" };
  if (first === "sign-in") return { screen: "signIn" };
  if (first === "first-run") return { screen: "firstRun" };
  return { screen: "today" };
}
