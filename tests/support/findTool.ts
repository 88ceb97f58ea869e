import { accessSync, constants } from "node:fs";
import { delimiter, join } from "node:path";

/** Where a program is, or null. Looks in the PATH and in the folders of system programs. */
export function findTool(tool: string): string | null {
  const folders = [...(process.env["PATH"] ?? "").split(delimiter), "/usr/sbin", "/sbin", "/usr/local/sbin"];
  for (const folder of folders.filter((each) => each !== "")) {
    const path = join(folder, tool);
    if (isExecutable(path)) return path;
  }
  return null;
}

function isExecutable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
