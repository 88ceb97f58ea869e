import { type DashboardFrame, anyFrame, dashboardFrame } from "@boothward/shared-types";

const knownKinds: ReadonlySet<string> = new Set(
  dashboardFrame.options.map((option) => option.shape.kind.value),
);

export type ReadFrame =
  | { readonly kind: "known"; readonly frame: DashboardFrame }
  | { readonly kind: "unknown"; readonly frameKind: string }
  | { readonly kind: "bad"; readonly reason: string };

/** Parses one frame of the dashboard; a bad one names the field that is wrong. */
export function readFrame(text: string): ReadFrame {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return { kind: "bad", reason: "frame is not JSON" };
  }
  const envelope = anyFrame.safeParse(json);
  if (!envelope.success) return { kind: "bad", reason: "frame has no kind" };
  if (!knownKinds.has(envelope.data.kind)) return { kind: "unknown", frameKind: envelope.data.kind };
  const parsed = dashboardFrame.safeParse(json);
  if (parsed.success) return { kind: "known", frame: parsed.data };
  const [issue] = parsed.error.issues;
  const field = issue?.path.join(".") ?? "";
  return { kind: "bad", reason: `${envelope.data.kind}.${field}: ${issue?.message ?? "wrong"}` };
}
