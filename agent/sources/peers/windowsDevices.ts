import type { Clock } from "@boothward/shared-types";
import * as z from "zod";
import { powerShell } from "../powerShell.ts";
import type { ChildCommand, KeptChild, Trouble } from "../spooler/keepChild.ts";
import { keepChild } from "../spooler/keepChild.ts";

/**
 * What the one PowerShell runs: every few seconds the devices that are there, of the classes that cameras have: Camera
 * (webcams), Image (scanners and older cameras) and WPD (cameras that are tethered or show their card). One line of
 * JSON each; the same manners as the print spooler's script.
 *
 * **Source:** Microsoft's documentation of Get-PnpDevice (module PnpDevice, Windows 10 and 11); not run on Windows.
 */
export const devicesScript = String.raw`
$ErrorActionPreference = 'Stop'
$ProgressPreference = 'SilentlyContinue'
$out = [System.IO.StreamWriter]::new([Console]::OpenStandardOutput(), [System.Text.UTF8Encoding]::new($false))
$out.AutoFlush = $true
$out.NewLine = [string][char]10
$everyMs = [int]$env:BOOTHWARD_EVERY_MS

while ($true) {
  $turn = [System.Diagnostics.Stopwatch]::StartNew()
  $devices = @()
  $fault = $null
  try {
    $devices = @(Get-PnpDevice -PresentOnly -Class Camera, Image, WPD -ErrorAction SilentlyContinue | Where-Object { $_.Status -eq 'OK' } | ForEach-Object {
      @{ FriendlyName = $_.FriendlyName; InstanceId = $_.InstanceId }
    })
  } catch { $fault = [string]$_.Exception.Message }
  $look = @{ version = 1; devices = @($devices); fault = $fault }
  try { $out.WriteLine((ConvertTo-Json -InputObject $look -Compress -Depth 4)) } catch { exit 0 }
  $restMs = $everyMs - $turn.ElapsedMilliseconds
  if ($restMs -gt 0) { Start-Sleep -Milliseconds $restMs }
}
`;

const device = z.object({ FriendlyName: z.string().nullish(), InstanceId: z.string().nullish() });
const devicesLine = z.object({
  version: z.literal(1),
  /** PowerShell 5.1 makes a bare object of a list of one, and nothing of an empty list. */
  devices: z.preprocess(
    (found: unknown): unknown[] => (found === null || found === undefined ? [] : [found].flat()),
    z.array(device),
  ),
  fault: z.string().nullish(),
});
export type DevicesLine = z.infer<typeof devicesLine>;

/** Takes a line apart; null if it is none of the script's. */
export function readDevicesLine(text: string): DevicesLine | null {
  try {
    return devicesLine.safeParse(JSON.parse(text)).data ?? null;
  } catch {
    return null;
  }
}

/** Numbers as USB has them, of "USB\VID_1209&PID_0001\...": 1209:0001. */
export function usbNumber(instanceId: string): string | null {
  const found = /VID_([0-9A-F]{4})&PID_([0-9A-F]{4})/i.exec(instanceId);
  return found ? `${found[1]}:${found[2]}`.toLowerCase() : null;
}

export type WindowsDevices = {
  /** Those of the last line; rejects with the reason where there is none. */
  readonly list: () => Promise<readonly string[]>;
  close(): Promise<void>;
};

/** A cold PowerShell on a small tablet; three times this for its first word. */
const silentMs = 20_000;
const restartMs = 1_000;

/** Keeps a PowerShell that lists the devices; `command` stands for it. */
export function windowsDevices(
  everyMs: number,
  clock: Clock,
  command: ChildCommand = powerShell(devicesScript, { BOOTHWARD_EVERY_MS: String(everyMs) }),
): WindowsDevices {
  let last: DevicesLine | Trouble = { fault: "timeout", detail: "Windows has not listed its devices yet" };
  const child: KeptChild = keepChild(command, {
    ...{ silentMs: Math.max(silentMs, 3 * everyMs), restartMs, clock },
    onLine(text) {
      const line = readDevicesLine(text);
      if (line) last = line;
      return line !== null;
    },
    onTrouble: (trouble) => (last = trouble),
  });
  return {
    list() {
      if ("detail" in last) return Promise.reject(new Error(last.detail));
      if (last.fault != null)
        return Promise.reject(new Error(`Windows does not list its devices: ${last.fault}`));
      const named = last.devices.map(({ FriendlyName, InstanceId }) => {
        const id = InstanceId ?? "";
        return [usbNumber(id), FriendlyName, id].filter((part) => part != null).join(" ");
      });
      return Promise.resolve(named);
    },
    close: () => child.close(),
  };
}
