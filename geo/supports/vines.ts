/**
 * Fresh weight of grown vines for each kg of the fruit that they give in a season, by family, at the heavy end of what is
 * known, which is on the safe side. Nightshades: 54–60 % of a tomato's dry matter is fruit, 35–38 % where few fruits set
 * (Heuvelink 1996, Tomato growth and yield, Wageningen); with vines twice as dry as fruit (from memory) that is 0.3–0.9.
 * Cucurbits 0.4–0.8 and legumes picked green, in their pods, 1–2 (from memory).
 */
const BY_FAMILY: Readonly<Record<string, number>> = { Solanaceae: 1, Cucurbitaceae: 1, Fabaceae: 2.5 }

/** Of a family that is not known: as the heaviest of those that are (from memory). */
const OTHER = 2.5

/** kg of vines for each kg of fruit of a family: as told, else as `BY_FAMILY` has it. */
export const vinesPerFruit = (family: string, told: number | null): number => told ?? BY_FAMILY[family] ?? OTHER

/** The same in words, to stand beside a load. */
export const VINES_SOURCE =
  'Vines weigh as much as their season’s fruit in nightshades (from Heuvelink 1996: 0.3–0.9 in tomatoes) and cucurbits (0.4–0.8, from memory), 2.5 times as much in legumes (1–2, from memory) and all others: the heavy end is taken.'
