import { useEffect } from "preact/hooks";
import { later } from "./parts/later.tsx";
import { asking, askingReport, failed } from "./words/en/frame.ts";
import { Frame, Mark } from "./parts/Frame.tsx";
import { PageContext } from "./state/pageContext.ts";
import type { Page } from "./state/pageContext.ts";
import { routeOf } from "./state/route.ts";
import type { Route } from "./state/route.ts";
import { me, path } from "./state/signals.ts";

const Today = later(() => import("./screens/Today.tsx").then((file) => file.Today), WaitingPage);
const Booth = later(() => import("./screens/Booth.tsx").then((file) => file.Booth), WaitingPage);
const Attend = later(() => import("./screens/Attend.tsx").then((file) => file.Attend), WaitingPage);
const Alerts = later(() => import("./screens/Alerts.tsx").then((file) => file.Alerts), WaitingPage);
const Join = later(() => import("./screens/Join.tsx").then((file) => file.Join), WaitingPage);
const Heard = later(() => import("./screens/Heard.tsx").then((file) => file.Heard), WaitingPage);
const RunSheet = later(() => import("./screens/RunSheet.tsx").then((file) => file.RunSheet), WaitingPage);
const Checks = later(() => import("./screens/Checks.tsx").then((file) => file.Checks), WaitingPage);
const LoadOut = later(() => import("./screens/LoadOut.tsx").then((file) => file.LoadOut), WaitingPage);
const DoorSign = later(() => import("./screens/DoorSign.tsx").then((file) => file.DoorSign), WaitingPage);
const Reports = later(() => import("./screens/Reports.tsx").then((file) => file.Reports), WaitingPage);
const Report = later(() => import("./screens/Report.tsx").then((file) => file.Report), WaitingPage);
const SharedReport = later(
  () => import("./screens/SharedReport.tsx").then((file) => file.SharedReport),
  WaitingReport,
);
const Stock = later(() => import("./screens/Stock.tsx").then((file) => file.Stock), WaitingPage);
const SetUp = later(() => import("./screens/SetUp.tsx").then((file) => file.SetUp), WaitingPage);
const SignIn = later(() => import("./screens/SignIn.tsx").then((file) => file.SignIn), WaitingPage);
const FirstRun = later(() => import("./screens/FirstRun.tsx").then((file) => file.FirstRun), WaitingPage);

/** The dashboard's pages: which screen the address shows. Each is fetched when first opened,
 * while the live socket connects. */
export function App({ page }: { page: Page }) {
  const route = routeOf(path.value);
  const isInside = !["signIn", "firstRun", "join", "heard", "sharedReport"].includes(route.screen);
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
      return me.value.role === "attendant" ? <Attend boothId={null} /> : <Today />;
    case "attend":
      return <Attend boothId={route.boothId} />;
    case "alerts":
      return <Alerts />;
    case "join":
      return <Join />;
    case "heard":
      return <Heard />;
    case "booth":
      return <Booth key={route.boothId} boothId={route.boothId} />;
    case "checks":
      return <Checks key={route.boothId} boothId={route.boothId} />;
    case "loadOut":
      return <LoadOut key={route.bookingId} bookingId={route.bookingId} />;
    case "doorSign":
      return <DoorSign key={route.bookingId} bookingId={route.bookingId} />;
    case "runSheet":
      return <RunSheet />;
    case "reports":
      return <Reports />;
    case "report":
      return <Report key={route.bookingId} bookingId={route.bookingId} />;
    case "sharedReport":
      return <SharedReport token={route.token} />;
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

/** A client is told nothing of the dashboard, and sees no tabs. */
function WaitingReport({ hasFailed }: { hasFailed: boolean }) {
  return (
    <Frame bar={null} isBare>
      <div class="verdict">
        <h1>{hasFailed ? failed.report : askingReport}</h1>
      </div>
    </Frame>
  );
}
