/** A row as it is told: by its name, else by its side. */
export interface ToldRow {
  readonly name: string | null
  readonly side: string | null
}

/**
 * Where something stands, in words: the bed, and the row by its name, else by its side ("O17 middle"). A row's name that
 * begins with its bed's tells both. `row` is null for what stands over the whole bed.
 */
export function whereWords(bed: string, row: ToldRow | null): string {
  const told = row?.name ?? row?.side ?? ''
  const tellsBed = told.startsWith(bed) && !/^[\p{L}\p{N}]/u.test(told.slice(bed.length))
  return tellsBed ? told : [bed, told].filter((words) => words !== '').join(' ')
}
