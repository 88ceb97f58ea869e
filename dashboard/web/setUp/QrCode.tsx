import { create } from "qrcode";
import { qrPath, quietModules } from "./qrPath.ts";

/** A text as a code for a camera: dark on light whatever the theme, as not every camera reads it otherwise. */
export function QrCode({ text, label }: { text: string; label: string }) {
  const { modules } = create(text, { errorCorrectionLevel: "M" });
  const side = modules.size + 2 * quietModules;
  return (
    <svg
      class="qr"
      viewBox={`0 0 ${side} ${side}`}
      role="img"
      aria-label={label}
      shape-rendering="crispEdges"
    >
      <rect class="light" width={side} height={side} />
      <path class="dark" d={qrPath(modules)} />
    </svg>
  );
}
