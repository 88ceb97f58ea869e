export * from "./advice.ts";
export * from "./booking.ts";
export * from "./clock.ts";
export * from "./frames.ts";
export * from "./item.ts";
export * from "./pairing.ts";
export * from "./view.ts";
export * from "./words.ts";
