import type { HttpBody, ReachForm } from "@boothward/shared-types/notices";
import type { Written } from "../parts/readForm.ts";

export type FormWay = Exclude<ReachForm["way"], "push">;

/** What the form of a way sends; what is wrong in it the dashboard says by the field's name. */
export function reachBody(way: FormWay, { text }: Written) {
  const label = text("label");
  switch (way) {
    case "email":
      return { way, label, body: { to: text("body.to") } };
    case "webhook":
      return { way, label, body: { url: text("body.url") } };
    case "http":
      return {
        ...{ way, label },
        body: {
          method: text("body.method"),
          url: text("body.url"),
          headers: headersOf(text("body.headers")),
          form: text("body.form"),
          template: text("body.template"),
        },
      };
  }
}

/** "Name: content" lines; a line without a colon is a name without content, for the dashboard to refuse. */
function headersOf(written: string): HttpBody["headers"] {
  return written
    .split("\n")
    .map((line) => line.trim())
    .filter((line) => line !== "")
    .map((line) => {
      const [name = "", ...content] = line.split(":");
      return { name: name.trim(), content: content.join(":").trim() };
    });
}
