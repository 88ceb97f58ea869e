import { win32 } from "node:path";
import type { ChildCommand } from "./spooler/keepChild.ts";

/**
 * The command that runs a script in the PowerShell that belongs to Windows (5.1). `settings` are handed on as
 * environment variables, so that no name is ever read as PowerShell.
 */
export function powerShell(
  script: string,
  settings: Readonly<Record<string, string>>,
  env: Readonly<Record<string, string | undefined>> = process.env,
): ChildCommand {
  const windows = env["SystemRoot"] ?? "C:\\Windows";
  return {
    file: win32.join(windows, "System32", "WindowsPowerShell", "v1.0", "powershell.exe"),
    args: [
      ...["-NoLogo", "-NoProfile", "-NonInteractive", "-ExecutionPolicy", "Bypass", "-OutputFormat", "Text"],
      ...["-EncodedCommand", Buffer.from(script, "utf16le").toString("base64")],
    ],
    env: settings,
  };
}
