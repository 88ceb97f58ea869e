/**
 * A Content-Disposition that saves a file under this name: in plain letters for old browsers, and whole (RFC 6266
 * section 4.3, RFC 8187 section 3.2).
 */
export function fileName(name: string): string {
  const safe = name
    .replace(/[\\/:*?"<>|\p{Cc}\p{Cs}]/gu, " ")
    .replace(/\s+/g, " ")
    .trim();
  const plain = safe
    .normalize("NFKD")
    .replace(/[^\x20-\x7e]/g, "")
    .trim();
  const whole = encodeURIComponent(safe).replace(/['()*]/g, percent);
  return `attachment; filename="${plain === "" ? "report" : plain}"; filename*=UTF-8''${whole}`;
}

/** Letters that encodeURIComponent leaves and RFC 8187's attr-char does not allow. */
function percent(letter: string): string {
  return `%${letter.charCodeAt(0).toString(16).toUpperCase()}`;
}
