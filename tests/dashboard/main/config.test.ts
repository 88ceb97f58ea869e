import { describe, expect, it } from "vitest";
import { readConfig } from "../../../dashboard/config.ts";

describe("the dashboard's command line", () => {
  it("needs a folder, and has a default for the rest", () => {
    expect(readConfig(["run", "--data", "here"])).toEqual({
      config: {
        ...{ data: "here", port: 8460, host: "127.0.0.1", origin: null, tls: null },
        "call-own-network": false,
      },
    });
  });

  it("takes an origin without what follows the host", () => {
    const args = ["run", "--data", "here", "--origin", "https://booths.example/", "--port", "0"];
    expect(readConfig(args)).toMatchObject({ config: { origin: "https://booths.example", port: 0 } });
  });

  it("takes a certificate with its key, not one of them", () => {
    const tls = ["--cert", "chain.pem", "--key", "key.pem"];
    expect(readConfig(["run", "--data", "here", ...tls])).toMatchObject({
      config: { tls: { certFile: "chain.pem", keyFile: "key.pem" } },
    });
  });

  it.each([
    [["run", "--data", "here", "--cert", "chain.pem"], "--key is missing"],
    [["run", "--data", "here", "--key", "key.pem"], "--cert is missing"],
    [[], 'no command ""'],
    [["walk"], 'no command "walk"'],
    [["run"], "--data is missing"],
    [["run", "--data", "here", "--port", "seven"], '--port "seven"'],
    [["run", "--data", "here", "--port", "70000"], '--port "70000"'],
    [["run", "--data", "here", "--origin", "booths"], '--origin "booths"'],
    [["run", "--data", "here", "--origin", "ftp://booths.example"], "--origin"],
    [["run", "--data", "here", "--colour", "red"], "--colour"],
  ])("%j is answered with a sentence that names what is wrong, and the usage", (args, words) => {
    const read = readConfig(args);
    const sentence = "sentence" in read ? read.sentence : "";
    expect(sentence).toContain(words);
    expect(sentence).toContain("Usage: dashboard run");
  });
});
