import type { AnyRecord, Kind } from '../model/kind.ts'
import { KINDS } from '../model/kinds.ts'
import { lonAbout } from '../plane/lonLat.ts'
import type { FarmContent } from './archive.ts'
import { cutAtMeridian } from './cutAtMeridian.ts'
import { rightHanded } from './rightHanded.ts'
import { collectionText, featureText, propertiesOf } from './writeFeatures.ts'

/** Property that holds a record's own field `kind`, since `kind` says which kind of record the feature is. */
export const OWN_KIND = 'what'

/**
 * Everything of a farm that has a geometry, as one FeatureCollection for other programs: `kind` says which kind of record
 * a feature is; rings follow the right-hand rule and shapes are cut at the 180th meridian (RFC 7946).
 */
export function writeGeoJson(content: FarmContent): Uint8Array {
  const meridian = lonAbout(content.origin?.[0] ?? 0, 180)
  const features = KINDS.filter((kind) => kind.shapes).flatMap((kind) =>
    (content.records.get(kind.name) ?? []).map((record) =>
      featureText(record.id, rightHanded(cutAtMeridian(record.geom!, meridian)), toldOf(kind, record)),
    ),
  )
  return new TextEncoder().encode(collectionText(features))
}

function toldOf(kind: Kind, record: AnyRecord): [string, unknown][] {
  const own = propertiesOf(kind, record).map(([name, value]): [string, unknown] => [
    name === 'kind' ? OWN_KIND : name,
    value,
  ])
  return [['kind', kind.name], ...own]
}
