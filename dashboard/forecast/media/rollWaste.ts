/** Sheets that go to waste when a roll is put in: 1 to 4 (common practice, no source). */
export const wasteAtChange = { usual: 2.5, most: 4 };

/** Changing a roll takes two to three minutes (common practice, no source). */
export const changeMs = 3 * 60_000;
