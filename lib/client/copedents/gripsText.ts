/** Grips as they are typed: strings apart by spaces or dashes, grips by commas. */
export function textToGrips(text: string): number[][] {
  return text
    .split(",")
    .map((grip) => grip.trim())
    .filter((grip) => grip !== "")
    .map((grip) => {
      if (!/^\d+([\s\-–·]+\d+)*$/.test(grip))
        throw new Error(`"${grip}" is no grip: write strings, then a comma, as in 3 4 5, 4 5 6.`);
      return grip.split(/[\s\-–·]+/).map(Number);
    });
}

export function gripsToText(grips: readonly (readonly number[])[]): string {
  return grips.map((grip) => grip.join(" ")).join(", ");
}
