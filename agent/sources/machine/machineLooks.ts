import { access } from "node:fs/promises";
import { join } from "node:path";

/** How this computer is set for the night; null: it cannot be seen. */
export type MachineLook = {
  readonly isUpdatePending: boolean | null;
  readonly sleepsAfterMin: number | null;
};

/** What a small program wrote, and the code it ended with; null: it could not be run. */
export type RunProgram = (
  file: string,
  args: readonly string[],
) => Promise<{ readonly code: number; readonly text: string } | null>;

/**
 * Debian's and Ubuntu's word for "restart wanted", and the program that writes it: without either nothing here ever
 * says so. **Source:** /etc/kernel/postinst.d and the packages update-notifier-common and unattended-upgrades, from
 * memory. When a Linux desktop sleeps is a matter of the person who is signed in, and is not looked at.
 */
export async function lookAtLinux(root: string): Promise<MachineLook> {
  const isThere = async (...path: readonly string[]) =>
    await access(join(root, ...path)).then(
      () => true,
      () => false,
    );
  const isWanted =
    (await isThere("run", "reboot-required")) || (await isThere("var", "run", "reboot-required"));
  const isSaid =
    (await isThere("usr", "share", "update-notifier", "notify-reboot-required")) ||
    (await isThere("usr", "share", "unattended-upgrades"));
  return { isUpdatePending: isWanted ? true : isSaid ? false : null, sleepsAfterMin: null };
}

const currentVersion = "HKLM\\SOFTWARE\\Microsoft\\Windows\\CurrentVersion";

/**
 * Keys that are there while Windows waits for a restart. **Source:** Microsoft's documentation of Windows Update and
 * of component servicing, from memory; not run on Windows.
 */
const restartKeys = [
  `${currentVersion}\\WindowsUpdate\\Auto Update\\RebootRequired`,
  `${currentVersion}\\Component Based Servicing\\RebootPending`,
];

/**
 * Asks two small programs of Windows, which cost far less than a PowerShell. A key that is not there and one that may
 * not be read end alike: a key that every Windows has tells whether any can be read at all.
 */
export async function lookAtWindows(run: RunProgram): Promise<MachineLook> {
  const isKey = async (key: string) => (await run("reg.exe", ["query", key, "/ve"]))?.code === 0;
  const canRead = await isKey(currentVersion);
  const isPending = canRead && ((await isKey(restartKeys[0] ?? "")) || (await isKey(restartKeys[1] ?? "")));
  const sleep = await run("powercfg.exe", ["/query", "SCHEME_CURRENT", "SUB_SLEEP", "STANDBYIDLE"]);
  return {
    isUpdatePending: canRead ? isPending : null,
    sleepsAfterMin: sleep === null || sleep.code !== 0 ? null : sleepsAfterMin(sleep.text),
  };
}

/**
 * Minutes on mains after which it sleeps, 0 never, from what powercfg writes; null where it wrote something else. Its
 * words are in the country's language, its figures are not: the last two are the settings on mains and on battery,
 * in seconds. **Source:** Microsoft's documentation of powercfg /query.
 */
export function sleepsAfterMin(text: string): number | null {
  const figures = [...text.matchAll(/\b0x([0-9a-f]{8})\b/gi)].map(([, hex = ""]) => Number.parseInt(hex, 16));
  const onMainsS = figures.length < 2 ? undefined : figures.at(-2);
  return onMainsS === undefined ? null : onMainsS / 60;
}
