import { httpBody, type HttpBody } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import { openCallOut } from "../../../dashboard/notify/callOut.ts";
import { httpChannel } from "../../../dashboard/notify/httpChannel.ts";
import { fillTemplate, whyNotTemplate } from "../../../dashboard/notify/template.ts";
import { nearby } from "../../support/aDashboard.ts";
import { aMessage } from "../../support/aMessage.ts";
import { aReceiver } from "../../support/aReceiver.ts";

function aTemplate(over: Partial<HttpBody> = {}): HttpBody {
  return {
    ...{ method: "POST", url: "https://calls.example/send", headers: [], form: "json" },
    template: '{"say": "{text}", "at": "{booth}", "how": "{severity}", "see": "{link}", "ref": "{id}"}',
    ...over,
  };
}

const values = {
  text: 'Ama & Co say "now"\nat 50%\\',
  ...{ booth: "Jüniper", severity: "actNow", link: "https://booths.example/booths/a?b=c", id: "d-1" },
};

describe("a template", () => {
  it("of JSON stays JSON, whatever a sentence holds", () => {
    const { body, headers } = fillTemplate(aTemplate(), values);
    expect(JSON.parse(body ?? "")).toEqual({
      ...{ say: values.text, at: "Jüniper", how: "actNow", see: values.link, ref: "d-1" },
    });
    expect(headers["content-type"]).toBe("application/json");
  });

  it("of a form is read as the form that was meant", () => {
    const filled = fillTemplate(aTemplate({ form: "form", template: "message={text}&to={booth}" }), values);
    // Source: WHATWG URL, the application/x-www-form-urlencoded parser, as Node has it.
    expect(Object.fromEntries(new URLSearchParams(filled.body ?? ""))).toEqual({
      ...{ message: values.text, to: "Jüniper" },
    });
  });

  it("of an address keeps its parts apart", () => {
    const filled = fillTemplate(
      aTemplate({ method: "GET", url: "https://calls.example/{booth}?m={text}&k=1" }),
      values,
    );
    const url = new URL(filled.url);
    expect([...url.searchParams]).toEqual([
      ["m", values.text],
      ["k", "1"],
    ]);
    expect(decodeURIComponent(url.pathname)).toBe("/Jüniper");
    expect(filled.body).toBeNull();
  });

  it("lets no line break into a header", () => {
    const headers = [{ name: "Title", content: "{text} at {booth}" }];
    expect(fillTemplate(aTemplate({ headers }), values).headers["Title"]).toBe(
      'Ama & Co say "now"?at 50%\\ at J?niper',
    );
  });

  it("is called as it is written", async () => {
    const receiver = await aReceiver(200);
    const headers = [{ name: "X-Token", content: "abc" }];
    const template = httpBody.parse(aTemplate({ url: `${receiver.url}/{severity}`, method: "PUT", headers }));
    expect(await httpChannel(openCallOut(nearby)).send(template, aMessage(), 0)).toEqual({ result: "sent" });
    expect(receiver.calls).toMatchObject([{ method: "PUT", path: "/actNow", headers: { "x-token": "abc" } }]);
  });

  it.each<[string, string, Partial<HttpBody>]>([
    ["template", "{txet}", { template: '{"say": "{txet}"}' }],
    ["url", "{bootth}", { url: "https://calls.example/{bootth}?m={text}" }],
    ["headers[0].content", "{name}", { headers: [{ name: "Title", content: "{name}" }] }],
    ["headers[0].name", "Host", { headers: [{ name: "Host", content: "elsewhere" }] }],
    ["template", "{text} is missing", { template: '{"say": "{booth}"}' }],
    ["template", "{text} is missing", { method: "GET" }],
    ["template", "not JSON", { template: '{"say": {text}}' }],
    ["url", "no address", { url: "ftp://calls.example/{text}" }],
    ["url", "host", { url: "https://{booth}.example/{text}" }],
    ["url", "host", { url: "https://calls.example.{booth}/{text}" }],
  ])("is refused at its %s, naming %s", (field, words, over) => {
    const why = whyNotTemplate(aTemplate(over));
    expect(why?.field).toBe(field);
    expect(why?.sentence).toContain(words);
  });

  it("that works is not refused", () => {
    expect(whyNotTemplate(aTemplate())).toBeNull();
    expect(whyNotTemplate(aTemplate({ method: "GET", url: "https://calls.example/?m={text}" }))).toBeNull();
    expect(whyNotTemplate(aTemplate({ form: "text", template: "{text} {link}" }))).toBeNull();
  });
});
