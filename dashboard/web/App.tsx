import { useEffect } from "preact/hooks";
import { later } from "./parts/later.tsx";
import { asking, failed } from "./words/en/frame.ts";
import { Frame, Mark } from "./parts/Frame.tsx";
import { PageContext } from "./state/pageContext.ts";
import type { Page } from "./state/pageContext.ts";
import { routeOf } from "./state/route.ts";
import type { Route } from "./state/route.ts";
import { path } from "./state/signals.ts";

const Today = later(() => import("./screens/Today.tsx").then((file) => file.Today), WaitingPage);
const Booth = later(() => import("./screens/Booth.tsx").then((file) => file.Booth), WaitingPage);
const RunSheet = later(() => import("./screens/RunSheet.tsx").then((file) => file.RunSheet), WaitingPage);
const Stock = later(() => import("./screens/Stock.tsx").then((file) => file.Stock), WaitingPage);
const SetUp = later(() => import("./screens/SetUp.tsx").then((file) => file.SetUp), WaitingPage);
const SignIn = later(() => import("./screens/SignIn.tsx").then((file) => file.SignIn), WaitingPage);
const FirstRun = later(() => import("./screens/FirstRun.tsx").then((file) => file.FirstRun), WaitingPage);

/** The dashboard's pages: which screen the address shows. Each is fetched when first opened,
 * while the live socket connects. */
export function App({ page }: { page: Page }) {
  const route = routeOf(path.value);
  const isInside = route.screen !== "signIn" && route.screen !== "firstRun";
  useEffect(() => {
    if (isInside) page.listen();
  }, [page, isInside]);
  return (
    <PageContext.Provider value={page}>
      <Screen route={route} />
    </PageContext.Provider>
  );
}

function Screen({ route }: { route: Route }) {
  switch (route.screen) {
    case "today":
      return <Today />;
    case "booth":
      return <Booth key={route.boothId} boothId={route.boothId} />;
    case "runSheet":
      return <RunSheet />;
    case "stock":
      return <Stock />;
    case "setUp":
      return <SetUp />;
    case "signIn":
      return <SignIn />;
    case "firstRun":
      return <FirstRun />;
  }
}

function WaitingPage({ hasFailed }: { hasFailed: boolean }) {
  return (
    <Frame bar={<Mark />}>
      <div class="verdict">
        <h1>{hasFailed ? failed.unreachable : asking}</h1>
      </div>
    </Frame>
  );
}
