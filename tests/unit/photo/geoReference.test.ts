import { describe, expect, it } from 'vitest'
import { gridAt } from '../../../geo/photo/affine.ts'
import { crsOfWkt, utmOnDatum } from '../../../geo/photo/crs.ts'
import { crsOfGeoKeys } from '../../../geo/photo/geoKeys.ts'
import { affineOfTags } from '../../../geo/photo/georeference.ts'
import { isPhotoFault, type PhotoFault } from '../../../geo/photo/placement.ts'

const sound = <T extends object>(value: T | PhotoFault): T => {
  if (isPhotoFault(value)) throw new Error(`${value.field}: ${value.detail}`)
  return value
}

const none = { pixelScale: undefined, tiepoint: undefined, transformation: undefined, isPoint: false }

describe('the tags of a GeoTIFF', () => {
  // OGC GeoTIFF 1.1 (19-008r4), annex B.6: the tie point may stand at any pixel (C).
  it('tie any pixel to the ground', () => {
    const affine = sound(affineOfTags({ ...none, pixelScale: [2, 3, 0], tiepoint: [10, 20, 0, 1000, 2000, 0] }))
    expect(gridAt(affine, 10, 20)).toEqual([1000, 2000])
    expect(gridAt(affine, 11, 21)).toEqual([1002, 1997])
  })

  it('meet pixel centres where the file says PixelIsPoint', () => {
    const tags = { ...none, pixelScale: [2, 3, 0], tiepoint: [0, 0, 0, 1000, 2000, 0], isPoint: true }
    expect(gridAt(sound(affineOfTags(tags)), 0.5, 0.5)).toEqual([1000, 2000])
    const matrix = [2, 0.5, 0, 1000, 0.25, -3, 0, 2000, 0, 0, 0, 0, 0, 0, 0, 1]
    const turned = sound(affineOfTags({ ...none, transformation: matrix, isPoint: true }))
    expect(gridAt(turned, 0.5, 0.5)).toEqual([1000, 2000])
    expect(gridAt(turned, 1.5, 2.5)).toEqual([1000 + 2 + 0.5 * 2, 2000 + 0.25 - 3 * 2])
  })

  it('run rows southward even where the scale is negative', () => {
    const affine = sound(affineOfTags({ ...none, pixelScale: [1, -1, 0], tiepoint: [0, 0, 0, 5, 6, 0] }))
    expect(gridAt(affine, 0, 1)).toEqual([5, 5])
  })

  it.each([
    [none, /world file .* control points/],
    [{ ...none, pixelScale: [1, 1, 0] }, /world file/],
    [{ ...none, tiepoint: [0, 0, 0, 5, 6, 0, 9, 9, 0, 8, 7, 0] }, /single points/],
    [{ ...none, pixelScale: [0, 0, 0], tiepoint: [0, 0, 0, 5, 6, 0] }, /single points/],
    [{ ...none, pixelScale: [1, 1, 0], tiepoint: [0, 0, 0, Number.NaN, 6, 0] }, /no sense/],
    [{ ...none, transformation: new Array(16).fill(0) }, /no area/],
  ])('without a usable place say so: %j', (tags, detail) => {
    expect(affineOfTags(tags)).toMatchObject({
      kind: 'photo',
      field: 'georeference',
      detail: expect.stringMatching(detail),
    })
  })
})

describe('the GeoKeys of a GeoTIFF', async () => {
  it('may name zone and datum apart', async () => {
    const north = {
      GTModelTypeGeoKey: 1,
      ProjectedCSTypeGeoKey: 32767,
      ProjectionGeoKey: 16033,
      GeographicTypeGeoKey: 4326,
    }
    expect(sound(await crsOfGeoKeys(north)).name).toBe('WGS 84 / UTM zone 33N')
    expect(sound(await crsOfGeoKeys({ ...north, ProjectionGeoKey: 16155, GeographicTypeGeoKey: 4258 })).name).toBe(
      'ETRS89 / UTM zone 55S',
    )
    expect(await crsOfGeoKeys({ ...north, GeographicTypeGeoKey: 4230 })).toMatchObject({
      field: 'crs',
      detail: expect.stringMatching(/EPSG:4230/),
    })
    expect(await crsOfGeoKeys({ ...north, ProjectionGeoKey: 16061 })).toMatchObject({ field: 'crs' })
    expect(utmOnDatum(4326, 61, false)).toMatchObject({ field: 'crs', detail: expect.stringMatching(/61/) })
  })

  it('may leave out the kind of model', async () => {
    expect(sound(await crsOfGeoKeys({ ProjectedCSTypeGeoKey: 32717, GeographicTypeGeoKey: 4326 })).name).toBe(
      'WGS 84 / UTM zone 17S',
    )
    expect(sound(await crsOfGeoKeys({ GeographicTypeGeoKey: 4326 })).inDegrees).toBe(true)
  })

  it.each([
    [null, /in which grid/],
    [{}, /in which grid/],
    [{ GTModelTypeGeoKey: 3 }, /grid of its own, without naming it/],
    [{ GTModelTypeGeoKey: 1, ProjectedCSTypeGeoKey: 32767, PCSCitationGeoKey: 'Site grid 4|' }, /"Site grid 4"/],
    [{ GTModelTypeGeoKey: 1, ProjectedCSTypeGeoKey: 5514 }, /EPSG:5514/],
    [{ GTModelTypeGeoKey: 1, ProjectedCSTypeGeoKey: 32661 }, /EPSG:32661/],
    [{ GTModelTypeGeoKey: 1, ProjectedCSTypeGeoKey: 32600 }, /EPSG:32600/],
    [{ GTModelTypeGeoKey: 1, ProjectedCSTypeGeoKey: 32633, ProjLinearUnitsGeoKey: 9002 }, /EPSG:9002/],
    [{ GTModelTypeGeoKey: 2, GeographicTypeGeoKey: 4326, GeogAngularUnitsGeoKey: 9105 }, /EPSG:9105/],
    [{ GTModelTypeGeoKey: 2, GeographicTypeGeoKey: 4267 }, /EPSG:4267/],
  ])('that are not read are named: %j', async (keys, detail) => {
    expect(await crsOfGeoKeys(keys)).toMatchObject({
      kind: 'photo',
      field: 'crs',
      detail: expect.stringMatching(detail),
    })
  })
})

describe('a .prj', async () => {
  const grads =
    'GEOGCS["NTF (Paris)",DATUM["Nouvelle_Triangulation_Francaise",SPHEROID["Clarke 1880 (IGN)",6378249.2,293.466]],PRIMEM["Paris",2.5969213],UNIT["grad",0.01570796326794897]]'
  const wgsGrads =
    'GEOGCS["odd",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563]],PRIMEM["Greenwich",0],UNIT["grad",0.01570796326794897]]'
  const noProjection =
    'PROJCS["odd",GEOGCS["GCS",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137.0,298.257223563]],PRIMEM["Greenwich",0],UNIT["Degree",0.0174532925199433]],PROJECTION["Nowhere"],UNIT["Meter",1]]'
  it.each(['', 'EPSG:32633', 'PROJCS[', 'PROJCS["cut off",GEOGCS["', grads, wgsGrads, noProjection])(
    'that cannot be trusted is refused: %s',
    (text) => {
      expect(crsOfWkt(text)).toMatchObject({ kind: 'photo', field: 'crs' })
    },
  )
})
