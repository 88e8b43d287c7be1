import type { AnyRecord, Kind } from '../model/kind.ts'
import { KINDS } from '../model/kinds.ts'
import { lonAbout } from '../plane/lonLat.ts'
import type { FarmContent } from './archive.ts'
import { cutAtMeridian } from './cutAtMeridian.ts'
import type { Written } from './driver.ts'
import { OWN_KIND } from './layers/plan.ts'
import { rightHanded } from './rightHanded.ts'
import { collectionText, featureText, propertiesOf } from './writeFeatures.ts'

/**
 * Everything of a farm that has a geometry, as one FeatureCollection for other programs: `kind` says which kind of record
 * a feature is; rings follow the right-hand rule and shapes are cut at the 180th meridian (RFC 7946).
 */
export function writeGeoJson(content: FarmContent): Written {
  const meridian = lonAbout(content.origin?.[0] ?? 0, 180)
  const features = KINDS.filter((kind) => kind.shapes).flatMap((kind) =>
    (content.records.get(kind.name) ?? []).map((record) =>
      featureText(record.id, rightHanded(cutAtMeridian(record.geom!, meridian)), toldOf(kind, record)),
    ),
  )
  return { bytes: new TextEncoder().encode(collectionText(features)), notes: [] }
}

function toldOf(kind: Kind, record: AnyRecord): [string, unknown][] {
  const own = propertiesOf(kind, record).map(([name, value]): [string, unknown] => [
    name === 'kind' ? OWN_KIND : name,
    value,
  ])
  return [['kind', kind.name], ...own]
}
