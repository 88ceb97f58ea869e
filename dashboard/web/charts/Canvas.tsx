import { Chart, LinearScale, LineController, LineElement, PointElement } from "chart.js";
import type { ChartConfiguration, FontSpec } from "chart.js";
import { useEffect, useRef } from "preact/hooks";
import { theme } from "../state/signals.ts";

Chart.register(LinearScale, LineController, LineElement, PointElement);

/** The page's colours and face as they are painted now, for a canvas that knows no style sheet. */
export type Ink = {
  ink: string;
  ink2: string;
  line: string;
  act: string;
  plan: string;
  accent: string;
  fan: string;
  font: Partial<FontSpec> & { family: string; size: number };
};

function presentInk(): Ink {
  const style = getComputedStyle(document.documentElement);
  const read = (name: string) => style.getPropertyValue(name).trim();
  return {
    ink: read("--ink"),
    ink2: read("--ink-2"),
    line: read("--line"),
    act: read("--act"),
    plan: read("--plan"),
    accent: read("--accent"),
    fan: read("--fan"),
    font: { family: read("--plain"), size: parseFloat(style.fontSize) * 0.75 },
  };
}

/** A curve with its sentence as label; drawn anew when `data` or the theme changes. */
export function Canvas(props: {
  label: string;
  data: string;
  isTall?: boolean;
  configure: (ink: Ink) => ChartConfiguration;
}) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const painted = theme.value;
  useEffect(() => {
    if (canvas.current === null) return;
    const chart = new Chart(canvas.current, props.configure(presentInk()));
    return () => chart.destroy();
  }, [props.data, painted]);
  return (
    <div class={`curve ${props.isTall === true ? "tall" : ""}`}>
      <canvas ref={canvas} role="img" aria-label={props.label} />
    </div>
  );
}
