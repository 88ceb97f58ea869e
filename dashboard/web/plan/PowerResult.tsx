import type { PowerLevel, PowerSum } from "@boothward/shared-types/power";
import { Icon } from "../parts/Icon.tsx";
import { deviceZone, units } from "../state/signals.ts";
import { powerWords as words } from "../words/en/plan.ts";
import { formatIn } from "../../alerts/format.ts";
import { lengthText } from "../words/lengths.ts";
import "../styles/plan.css";

type Line = { level: PowerLevel; text: string };

const icons = { fine: "fine", near: "plan", over: "act" } as const;

/** What comes of the watts, the cord and the battery, in sentences, with the caution. */
export function PowerResult({ sum }: { sum: PowerSum }) {
  const count = (n: number) => formatIn(deviceZone, units.value).count(n);
  return (
    <div class="power" role="status">
      <p>
        <b>{words.sum(count(sum.watts), sum.amps.toFixed(1))}</b>
      </p>
      <ul class="levels">
        {[...breakerLines(sum, count), ...cordLines(sum), ...batteryLines(sum)].map(({ level, text }) => (
          <li key={text} class={level}>
            <Icon name={icons[level]} />
            <span>{text}</span>
          </li>
        ))}
      </ul>
      <p class="small">{words.caution}</p>
    </div>
  );
}

function breakerLines({ breaker }: PowerSum, count: (n: number) => string): Line[] {
  if (breaker === null) return [{ level: "near", text: words.noBreaker }];
  const { level, sharePct, freeWatts } = breaker;
  return [{ level, text: words.breaker[level](sharePct.toFixed(0), count(Math.abs(freeWatts))) }];
}

function cordLines({ cord }: PowerSum): Line[] {
  if (cord === null) return [];
  const { dropV, dropPct, dropLevel, longestM, carriesA, isOverloaded } = cord;
  const drop = words.drop[dropLevel](dropV.toFixed(1), dropPct.toFixed(1));
  const longest = longestM === null ? "" : ` ${words.longest(lengthText(longestM, units.value))}`;
  return [
    { level: dropLevel, text: drop + longest },
    isOverloaded
      ? { level: "over", text: words.overloaded(String(carriesA)) }
      : { level: "fine", text: words.carries(String(carriesA)) },
  ];
}

function batteryLines({ battery }: PowerSum): Line[] {
  if (battery === null || battery.runsHours === null) return [];
  const lasts = words.battery(formatIn(deviceZone, units.value).minutes(battery.runsHours * 3_600_000));
  const isShort = battery.isEnough === false;
  return [{ level: isShort ? "over" : "fine", text: isShort ? `${lasts} ${words.batteryShort}` : lasts }];
}
