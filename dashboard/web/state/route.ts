export type Route =
  | { screen: "today" | "alerts" | "runSheet" | "reports" | "stock" | "setUp" }
  | { screen: "signIn" | "firstRun" | "join" | "heard" }
  | { screen: "booth" | "attend" | "checks"; boothId: string }
  | { screen: "loadOut" | "doorSign" | "report"; bookingId: string }
  | { screen: "sharedReport"; token: string };

/** Which screen an address shows; what is not known shows Today. */
export function routeOf(path: string): Route {
  const [first = "", second = "", third = ""] = path.split("/").slice(1);
  if (first === "booths" && second !== "")
    return {
      screen: third === "attend" || third === "checks" ? third : "booth",
      boothId: decodeURIComponent(second),
    };
  if (first === "alerts") return { screen: "alerts" };
  if (first === "join" || first === "heard") return { screen: first };
  if (first === "run-sheet" && (third === "load-out" || third === "door-sign"))
    return {
      screen: third === "load-out" ? "loadOut" : "doorSign",
      bookingId: decodeURIComponent(second),
    };
  if (first === "reports")
    return second === ""
      ? { screen: "reports" }
      : { screen: "report", bookingId: decodeURIComponent(second) };
  if (first === "r" && second !== "") return { screen: "sharedReport", token: decodeURIComponent(second) };
  if (first === "run-sheet") return { screen: "runSheet" };
  if (first === "stock") return { screen: "stock" };
  if (first === "set-up") return { screen: "setUp" };
  if (first === "sign-in") return { screen: "signIn" };
  if (first === "first-run") return { screen: "firstRun" };
  return { screen: "today" };
}
