import { powerShell } from "../powerShell.ts";
import type { ChildCommand } from "./keepChild.ts";

/**
 * What the one PowerShell runs: each few seconds it asks for the printer, the jobs and the counters, and
 * writes the answer as one line of JSON. Written for Windows PowerShell 5.1, which every Windows 10 and 11 has.
 *
 * Settings come as environment variables, so that no name of a printer is ever read as PowerShell. Text goes
 * straight to the output stream as UTF-8 without a byte order mark: the console's own encoding is the code page of the
 * country. Dates are written as ISO 8601, as ConvertTo-Json of 5.1 makes "/Date(ms)/" of them, and lists are
 * kept lists by @(...), as it makes a bare object of a list of one. When nobody reads any more, writing
 * fails and the script ends: no PowerShell outlives its agent for longer than one turn.
 */
export const spoolerScript = String.raw`
$ErrorActionPreference = 'Stop'
$ProgressPreference = 'SilentlyContinue'
$out = [System.IO.StreamWriter]::new([Console]::OpenStandardOutput(), [System.Text.UTF8Encoding]::new($false))
$out.AutoFlush = $true
$out.NewLine = [string][char]10

$everyMs = [int]$env:BOOTHWARD_EVERY_MS
$queue = [string]$env:BOOTHWARD_QUEUE
$printerQuery = 'SELECT Name, WorkOffline, PrinterStatus, ExtendedPrinterStatus, DetectedErrorState, ExtendedDetectedErrorState FROM Win32_Printer'
if ($queue -ne '') {
  $name = $queue.Replace('\', '\\').Replace("'", "\'")
  $printerQuery = "$printerQuery WHERE Name = '$name'"
}
$jobQuery = 'SELECT Name, JobId, StatusMask, PagesPrinted, TotalPages, TimeSubmitted FROM Win32_PrintJob'
$counterQuery = "SELECT Name, TotalPagesPrinted FROM Win32_PerfFormattedData_Spooler_PrintQueue WHERE Name <> '_Total'"

function ConvertTo-IsoText($moment) {
  if ($null -eq $moment) { return $null }
  return ([DateTime]$moment).ToUniversalTime().ToString('o')
}

while ($true) {
  $turn = [System.Diagnostics.Stopwatch]::StartNew()
  $faults = @{}
  $printers = @()
  $jobs = @()
  $counters = @()
  try {
    $printers = @(Get-CimInstance -Query $printerQuery -OperationTimeoutSec 8 | ForEach-Object {
      @{
        Name = $_.Name
        WorkOffline = $_.WorkOffline
        PrinterStatus = $_.PrinterStatus
        ExtendedPrinterStatus = $_.ExtendedPrinterStatus
        DetectedErrorState = $_.DetectedErrorState
        ExtendedDetectedErrorState = $_.ExtendedDetectedErrorState
      }
    })
  } catch { $faults['printers'] = [string]$_.Exception.Message }
  if ($queue -ne '') {
    try {
      $jobs = @(Get-CimInstance -Query $jobQuery -OperationTimeoutSec 8 | ForEach-Object {
        @{
          Name = $_.Name
          JobId = $_.JobId
          StatusMask = $_.StatusMask
          PagesPrinted = $_.PagesPrinted
          TotalPages = $_.TotalPages
          TimeSubmitted = ConvertTo-IsoText $_.TimeSubmitted
        }
      })
    } catch { $faults['jobs'] = [string]$_.Exception.Message }
    try {
      $counters = @(Get-CimInstance -Query $counterQuery -OperationTimeoutSec 8 | ForEach-Object {
        @{ Name = $_.Name; TotalPagesPrinted = $_.TotalPagesPrinted }
      })
    } catch { $faults['counters'] = [string]$_.Exception.Message }
  }
  $look = @{ version = 1; printers = @($printers); jobs = @($jobs); counters = @($counters); faults = $faults }
  try { $out.WriteLine((ConvertTo-Json -InputObject $look -Compress -Depth 4)) } catch { exit 0 }
  $restMs = $everyMs - $turn.ElapsedMilliseconds
  if ($restMs -gt 0) { Start-Sleep -Milliseconds $restMs }
}
`;

/** The command that runs the script; without a queue it lists every printer and reads neither jobs nor counters. */
export function powerShellCommand(
  { queue, everyMs }: { readonly queue: string | null; readonly everyMs: number },
  env: Readonly<Record<string, string | undefined>> = process.env,
): ChildCommand {
  return powerShell(
    spoolerScript,
    { BOOTHWARD_QUEUE: queue ?? "", BOOTHWARD_EVERY_MS: String(everyMs) },
    env,
  );
}
