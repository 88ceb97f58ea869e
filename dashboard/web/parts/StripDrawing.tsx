import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";
import type { StripBox, StripShape } from "./stripShape.ts";

/**
 * The ink of a strip inside an SVG, without its labels. `overPx`: how far the now line stands out above and
 * below; on the wide table it runs through all rows.
 */
export function StripDrawing(props: {
  shape: StripShape;
  box: StripBox;
  overPx: number;
  /** What is printed on the paper below the ink. */
  children?: ComponentChildren;
}) {
  const { shape, box, overPx } = props;
  const paper = useId();
  const { empty, stop, lull } = shape;
  return (
    <>
      <clipPath id={paper}>
        <path d={shape.ground} />
      </clipPath>
      <path class="ground" d={shape.ground} />
      {lull !== null && (
        <path class="lull" d={`M${lull.fromPx} ${box.topPx}H${lull.toPx}V${box.bottomPx}H${lull.fromPx}Z`} />
      )}
      {props.children}
      <path class="used" clip-path={`url(#${paper})`} d={shape.used} />
      <path class="usedline" clip-path={`url(#${paper})`} d={shape.usedLine} />
      <path class="rays" clip-path={`url(#${paper})`} d={shape.rays} />
      <path class="mid" d={shape.mid} />
      {empty !== null && <path class="gap" d={`M${empty.fromPx} ${box.bottomPx}H${empty.toPx}`} />}
      {empty?.ringPx != null && <circle class="empty" cx={empty.ringPx} cy={box.bottomPx} r="4.5" />}
      {shape.closePx !== null && <path class="close" d={`M${shape.closePx} ${box.topPx}V${box.bottomPx}`} />}
      {shape.nowPx !== null && (
        <g class="now" style={{ transform: `translateX(${shape.nowPx}px)` }}>
          <path class="now" d={`M0 ${box.topPx - overPx}V${box.bottomPx + overPx}`} />
        </g>
      )}
      {stop !== null && <path class="gap" d={`M${stop.fromPx} ${box.bottomPx}H${stop.toPx}`} />}
      {stop?.isOut === true && <circle class="empty" cx={stop.fromPx} cy={box.bottomPx} r="4.5" />}
    </>
  );
}
