import { describe, expect, it } from "vitest";
import { answerFromCache } from "../../../dashboard/web/worker/answerFromCache.ts";
import { ownAddress } from "../../../dashboard/web/worker/ownAddress.ts";

const origin = "https://booths.example";
/** A browser's caches that hold nothing, and fail where they are asked. */
const noCaches = {
  open: () => Promise.reject(new Error("the caches were asked")),
} as unknown as CacheStorage;
const asks = (path: string, method = "GET") =>
  answerFromCache(new Request(origin + path, { method }), origin, noCaches, "pages-1");

describe("the worker of the pages", () => {
  it("keeps out of the API, of what changes something, and of other origins", () => {
    expect(asks("/api/booths")).toBeNull();
    expect(asks("/alerts", "POST")).toBeNull();
    const elsewhere = new Request("https://elsewhere.example/icon.svg");
    expect(answerFromCache(elsewhere, origin, noCaches, "pages-1")).toBeNull();
  });

  it("answers for the pages' own files", async () => {
    await expect(asks("/assets/index.js")).rejects.toThrow("the caches were asked");
  });

  it("opens our own addresses only, whatever a notice says", () => {
    expect(ownAddress({ path: "/booths/thistle" }, origin)).toBe(`${origin}/booths/thistle`);
    expect(ownAddress({ path: "/heard#delivery=d&secret=s" }, origin)).toBe(
      `${origin}/heard#delivery=d&secret=s`,
    );
    expect(ownAddress({ path: "https://elsewhere.example/" }, origin)).toBe(`${origin}/`);
    expect(ownAddress({ path: "//elsewhere.example/" }, origin)).toBe(`${origin}/`);
    expect(ownAddress("nothing", origin)).toBe(`${origin}/`);
  });
});
