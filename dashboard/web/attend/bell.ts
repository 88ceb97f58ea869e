import { signal } from "@preact/signals";

/** Whether this page may ring: browsers want one tap first, after each load. */
export const isBellOn = signal(false);

let audio: AudioContext | null = null;

/** Lets the page ring from now on, and lets it be heard once; runs inside a tap. */
export async function turnBellOn(): Promise<void> {
  audio ??= new AudioContext();
  await audio.resume();
  isBellOn.value = audio.state === "running";
  ring();
}

/** Two rising tones, half a second in all; nothing where sound was not turned on. */
export function ring(): void {
  if (audio === null || audio.state !== "running") return;
  for (const [i, pitchHz] of [660, 880].entries()) {
    const tone = audio.createOscillator();
    const loudness = audio.createGain();
    const from = audio.currentTime + i * 0.25;
    tone.frequency.value = pitchHz;
    loudness.gain.setValueAtTime(0.0001, from);
    loudness.gain.exponentialRampToValueAtTime(0.6, from + 0.02);
    loudness.gain.exponentialRampToValueAtTime(0.0001, from + 0.24);
    tone.connect(loudness).connect(audio.destination);
    tone.start(from);
    tone.stop(from + 0.25);
  }
}

/** A buzz of the phone, where it can and the person has touched the page: browsers forbid it before that. */
export function buzz(): void {
  const touched: UserActivation | undefined = navigator.userActivation;
  if (touched?.hasBeenActive === true) navigator.vibrate?.([200, 100, 200]);
}
