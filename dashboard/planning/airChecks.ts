import { isGoodAt } from "../booth/insideNow.ts";
import { condensationWait, usualTimeConstantMinutes } from "../forecast/air/condensation.ts";
import { dewPointC } from "../forecast/air/dewPoint.ts";
import { type Found, notPossible, question, seen, toDo } from "./found.ts";
import { faultOf } from "./machineChecks.ts";
import type { ChecksInput } from "./checksInput.ts";

/** So likely to pass the printer's limit within the hour, and somebody should think of shade. Our own choice. */
const crossChance = 0.3;

/** The air at the printer: not too warm, and nothing that sweats. */
export function airChecks(input: ChecksInput): Found[] {
  return [temperature(input), dewPoint(input)];
}

function temperature(input: ChecksInput): Found {
  const { view, atMs } = input;
  const { inside, limitC } = view;
  if (inside === null) return notPossible("temperature", faultOf(input, "thermometer"));
  if (!isGoodAt(inside, atMs)) return notPossible("temperature", "timeout");
  const { insideC } = inside;
  const ahead = view.outlook.heat.find(({ basis }) => basis === "enoughData");
  const figures = { insideC, limitC, crossChance60: ahead?.crossChance60 ?? null };
  if (insideC >= limitC) return toDo("temperature", figures);
  return (ahead?.crossChance60 ?? 0) >= crossChance
    ? question("temperature", figures)
    : seen("temperature", inside.atMs, figures);
}

/**
 * What came in from colder air than the dew point at the printer sweats: asked, as nobody measures the printer's
 * own temperature. Without a reading outside, only the dew point is said.
 */
function dewPoint(input: ChecksInput): Found {
  const { view, atMs } = input;
  const { inside } = view;
  if (inside === null || inside.humidityPct === null)
    return notPossible("dewPoint", inside === null ? faultOf(input, "thermometer") : "unsupported");
  if (!isGoodAt(inside, atMs)) return notPossible("dewPoint", "timeout");
  const { insideC, humidityPct, outsideC } = inside;
  const dewC = dewPointC(insideC, humidityPct);
  if (outsideC === null) return seen("dewPoint", inside.atMs, { dewC });
  const wait = condensationWait({
    ...{ caseC: outsideC, airC: insideC, humidityPct },
    timeConstantMinutes: usualTimeConstantMinutes.printer,
  });
  if (wait.waitMinutes === 0) return seen("dewPoint", inside.atMs, { dewC, outsideC });
  return question("dewPoint", { dewC, outsideC, waitMin: wait.waitMinutes });
}
