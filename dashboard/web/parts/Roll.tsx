import { rollShape } from "./rollShape.ts";

/** Under this share of a kit the rim takes the colour of what is due soon. */
const lowShare = 0.22;

/** The roll seen end on, thinner as it is used; `left` null: not known, only the outline of a full one. */
export function Roll(props: {
  left: number | null;
  kit: number;
  isOld: boolean;
  label: string;
  sizePx?: number;
}) {
  const { left, kit, sizePx = 52 } = props;
  const shape = rollShape(left ?? 0, kit, sizePx);
  const middle = sizePx / 2;
  const state = left === null ? "old" : left <= 0 ? "out" : left < kit * lowShare ? "low" : "";
  return (
    <svg
      class={`roll ${state} ${props.isOld ? "old" : ""}`}
      viewBox={`0 0 ${sizePx} ${sizePx}`}
      width={sizePx}
      height={sizePx}
      role="img"
      aria-label={props.label}
    >
      <circle class="full" cx={middle} cy={middle} r={shape.fullPx} />
      {shape.wind !== "" && (
        <>
          <circle class="paper" cx={middle} cy={middle} r={shape.paperPx} />
          <path class="wind" d={shape.wind} />
        </>
      )}
      <circle class="core" cx={middle} cy={middle} r={shape.corePx} />
    </svg>
  );
}
