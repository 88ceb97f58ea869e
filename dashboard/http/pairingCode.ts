/** Capitals and digits that nobody takes for another: no 0 and O, no 1, I and L. */
const alphabet = "ABCDEFGHJKMNPQRSTUVWXYZ23456789";
const length = 6;

/** A code to read from one screen and type into another: "QK7M2D". Each letter is equally likely. */
export function makePairingCode(randomBytes: (size: number) => Buffer): string {
  // A byte past the last whole run of the alphabet would favour its first letters.
  const fair = 256 - (256 % alphabet.length);
  let code = "";
  while (code.length < length)
    for (const byte of randomBytes(length))
      if (byte < fair && code.length < length) code += alphabet[byte % alphabet.length];
  return code;
}

/** The code as a person reads it: "QK7 M2D". */
export function spacedCode(code: string): string {
  return `${code.slice(0, length / 2)} ${code.slice(length / 2)}`;
}

/** The code as it was made, however it was typed. */
export function typedCode(typed: string): string {
  return typed.toUpperCase().replace(/[^A-Z0-9]/g, "");
}
