import { effect } from "@preact/signals";
import { booths, isWide, me, slowMs, theme, themeChoice, units } from "./signals.ts";
import { themeOf } from "./theme.ts";

/** Theme, units and width: what this person chose on this device, else what device and venue say. */
export function followChoices(window: Window): void {
  const chosen = window.localStorage.getItem("theme");
  if (chosen === "light" || chosen === "dark") themeChoice.value = chosen;
  const kept = window.localStorage.getItem("units");
  const isUs = kept === null ? window.navigator.language.endsWith("-US") : kept === "us";
  units.value = isUs ? "us" : "metric";
  if (window.localStorage.getItem("role") === "attendant") me.value = { name: "", role: "attendant" };

  const dark = window.matchMedia("(prefers-color-scheme: dark)");
  const wide = window.matchMedia("(min-width: 900px)");
  const paint = () => {
    theme.value = themeOf(themeChoice.value, dark.matches, booths.value, slowMs.value);
    window.document.documentElement.dataset["theme"] = theme.value;
  };
  effect(paint);
  dark.addEventListener("change", paint);
  isWide.value = wide.matches;
  wide.addEventListener("change", () => (isWide.value = wide.matches));
}
