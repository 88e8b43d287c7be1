/** What a column's name says of it: the coordinate that it holds and the pair of words that this belongs to. */
export interface NamedPlace {
  readonly way: 'north' | 'east'
  readonly family: Family
  /** The other words of its name, in order: `gps` of `gps_lat`. */
  readonly rest: string
  /** True where those words say nothing of what lies there: `gps`, `coord`, `WGS84`. */
  readonly isPlain: boolean
}

/** `degrees`: latitude and longitude; `sizes`: the same in words that also mean width and length. */
export type Family = 'degrees' | 'xy' | 'compass' | 'sizes'

const WORDS: Readonly<Record<Family, Readonly<Record<'north' | 'east', string>>>> = {
  degrees: {
    north: `lat lati latit latitude latitud latitudine latitudo breitengrad breddegrad breddgrad breedtegraad leveysaste
      laiuskraad platuma enlem широта шырата 纬度 緯度 위도`,
    east: `lon long lng longi longit longitude longitud longitudine longitudo längengrad laengengrad længdegrad laengdegrad
      lengdegrad längdgrad laengdgrad lengtegraad pituusaste pikkuskraad ilguma boylam долгота довгота даўгата 经度 經度 経度 경도`,
  },
  xy: { north: 'y', east: 'x' },
  compass: {
    north: 'n north northing northings nord hochwert nordwert norte',
    east: 'e east easting eastings ost rechtswert ostwert este',
  },
  sizes: {
    north: 'breite breedte bredde bredd platums širina šířka šírka szélesség leveys laius szerokość ширина πλάτος',
    east: `länge laenge lengte længde laengde lengde längd dolžina duljina dužina délka dĺžka hosszúság pituus pikkus
      długość garums должина дължина дужина μήκος`,
  },
}

/** Words beside a coordinate's that say nothing of what lies there. */
const PLAIN = new Set(
  `gps gnss geo utm wgs wgs84 epsg etrs89 4326 coord coords coordinate coordinates koord koordinate koordinaten koordinata
  coordenada coordonnee coordonnees coordinata pos position point pt punkt loc location map grid deg degree degrees dd
  decimal dec m metres meters geographic geografische geographische geographical geografska zemljepisna geograficzna
  zemepisna geogr centroid center centre value num`.split(/\s+/),
)

/** Names of a column that holds both, and of one with the longitude first. */
const BOTH =
  /^(?:gps|geo)?(?:coords?|coordinates?|koord(?:inat\w*)?|coordenadas?|coordonnees?|coordinat[ae]|latl(?:on|ng|ong)|location|position|gps|geo)$/
const EAST_FIRST = /^(?:lon|lng|long)\w*?lat|^xy$|^east\w*north/

/** Letters that have no mark to be taken off. */
const LETTERS: Readonly<Record<string, string>> = { ł: 'l', ø: 'o', æ: 'ae', ß: 'ss', đ: 'd', ı: 'i' }

function plain(text: string): string {
  const bare = text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase()
  return bare.replace(/[łøæßđı]/g, (letter) => LETTERS[letter]!)
}

function partsOf(name: string): string[] {
  const parted = name.replace(/([\p{Ll}\d])(\p{Lu})/gu, '$1 $2').replace(/(\p{Lu})(\p{Lu}\p{Ll})/gu, '$1 $2')
  return plain(parted)
    .split(/[^\p{L}\p{N}]+/u)
    .filter((part) => part !== '')
}

const KNOWN = new Map<string, Pick<NamedPlace, 'way' | 'family'>>(
  Object.entries(WORDS).flatMap(([family, ways]) =>
    Object.entries(ways).flatMap(([way, words]) =>
      words.split(/\s+/).map((word) => [plain(word), { way: way as 'north', family: family as Family }] as const),
    ),
  ),
)

/** `gpslat`, `xcoord` and `latdeg` as two words each; one that is not so joined as it is. */
function unglued(part: string): string[] {
  if (KNOWN.has(part)) return [part]
  const [, before, word] = /^(gps|geo|utm|coord|koord|pos|wgs84|point)(.+)$/.exec(part) ?? []
  if (word && KNOWN.has(word)) return [before!, word]
  const [, first, behind] = /^(.+?)(coords?|koord|coordinate|deg|dd|wgs84|gps)$/.exec(part) ?? []
  return first && KNOWN.has(first) ? [first, behind!] : [part]
}

/** Which coordinate a column's name says that it holds, by the parts of the name; null where it says none, or both. */
export function namedPlace(name: string): NamedPlace | null {
  const parts = partsOf(name).flatMap(unglued)
  const telling = parts.filter((part) => KNOWN.has(part))
  // A letter by itself may be part of another word's name; a longer word beside it says more.
  const long = telling.filter((part) => part.length > 1)
  const [word, ...others] = long.length > 0 ? long : telling
  if (word === undefined || others.length > 0) return null
  const rest = parts.toSpliced(parts.indexOf(word), 1)
  return { ...KNOWN.get(word)!, rest: rest.join(' '), isPlain: rest.every((part) => PLAIN.has(part)) }
}

/** True where a column's name says that it holds both coordinates; `eastFirst` where it says in which order. */
export function namedPair(name: string): { readonly both: boolean; readonly eastFirst: boolean } {
  const joined = partsOf(name).join('')
  const eastFirst = EAST_FIRST.test(joined)
  return { both: eastFirst || BOTH.test(joined), eastFirst }
}
