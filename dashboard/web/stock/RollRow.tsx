import { rollShape } from "../parts/rollShape.ts";

/** So many rolls are drawn; the number beside them says the rest. */
const mostDrawn = 12;
const sizePx = 26;
const gapPx = 4;

/** Full rolls and part rolls in a row, each seen end on. The words beside it say the same. */
export function RollRow({ full, partials, kit }: { full: number; partials: readonly number[]; kit: number }) {
  const lefts = [...new Array<number>(Math.max(0, full)).fill(kit), ...partials];
  const drawn = [...lefts.slice(0, mostDrawn - partials.length), ...partials].slice(0, mostDrawn);
  const shown = lefts.length <= mostDrawn ? lefts : drawn;
  if (shown.length === 0) return null;
  const width = shown.length * (sizePx + gapPx) - gapPx;
  return (
    <svg
      class="roll rollrow"
      viewBox={`0 0 ${width} ${sizePx}`}
      width={width}
      height={sizePx}
      aria-hidden="true"
    >
      {shown.map((left, at) => {
        const shape = rollShape(left, kit, sizePx);
        return (
          // One roll is as good as another; only their number moves.
          <g key={at} transform={`translate(${at * (sizePx + gapPx)} 0)`}>
            {left < kit && <circle class="full" cx={sizePx / 2} cy={sizePx / 2} r={shape.fullPx} />}
            <circle class="paper" cx={sizePx / 2} cy={sizePx / 2} r={shape.paperPx} />
            <circle class="core" cx={sizePx / 2} cy={sizePx / 2} r={shape.corePx} />
          </g>
        );
      })}
    </svg>
  );
}
