/** A national or continental grid by its code in the EPSG registry. */
export interface KnownGrid {
  readonly name: string
  /** What Esri's WKT calls it, for .prj files that give no code. */
  readonly esri: string
  /** As PROJ reads it; the units are metres. */
  readonly proj: string
}

/**
 * Definitions as PROJ 9.1 exports them; where that gives no shift to WGS 84, the seven parameters of the datum's transformation
 * in the EPSG registry (OSGB36 1314, Amersfoort 4833, BD72 15929, HD72 1242, Pulkovo 1942(58) 15995, Monte Mario 1660; S-JTSK 5239),
 * good to a few metres.
 */
export const KNOWN_GRIDS: Readonly<Record<number, KnownGrid>> = {
  27700: {
    name: 'OSGB36 / British National Grid',
    esri: 'British_National_Grid',
    proj: '+proj=tmerc +lat_0=49 +lon_0=-2 +k=0.9996012717 +x_0=400000 +y_0=-100000 +ellps=airy +towgs84=446.448,-125.157,542.06,0.15,0.247,0.842,-20.489',
  },
  29902: {
    name: 'TM65 / Irish Grid',
    esri: 'TM65_Irish_Grid',
    proj: '+proj=tmerc +lat_0=53.5 +lon_0=-8 +k=1.000035 +x_0=200000 +y_0=250000 +a=6377340.189 +rf=299.3249646 +towgs84=482.5,-130.6,564.6,-1.042,-0.214,-0.631,8.15',
  },
  2157: {
    name: 'IRENET95 / Irish Transverse Mercator',
    esri: 'IRENET95_Irish_Transverse_Mercator',
    proj: '+proj=tmerc +lat_0=53.5 +lon_0=-8 +k=0.99982 +x_0=600000 +y_0=750000 +ellps=GRS80 +towgs84=0,0,0',
  },
  2154: {
    name: 'RGF93 v1 / Lambert-93',
    esri: 'RGF_1993_Lambert_93',
    proj: '+proj=lcc +lat_0=46.5 +lon_0=3 +lat_1=49 +lat_2=44 +x_0=700000 +y_0=6600000 +ellps=GRS80 +towgs84=0,0,0',
  },
  28992: {
    name: 'Amersfoort / RD New',
    esri: 'RD_New',
    proj: '+proj=sterea +lat_0=52.1561605555556 +lon_0=5.38763888888889 +k=0.9999079 +x_0=155000 +y_0=463000 +ellps=bessel +towgs84=565.417,50.3319,465.552,-0.398957,0.343988,-1.8774,4.0725',
  },
  31370: {
    name: 'BD72 / Belgian Lambert 72',
    esri: 'Belge_Lambert_1972',
    proj: '+proj=lcc +lat_0=90 +lon_0=4.36748666666667 +lat_1=51.1666672333333 +lat_2=49.8333339 +x_0=150000.013 +y_0=5400088.438 +ellps=intl +towgs84=-106.8686,52.2978,-103.7239,0.3366,-0.457,1.8422,-1.2747',
  },
  3812: {
    name: 'ETRS89 / Belgian Lambert 2008',
    esri: 'Belge_Lambert_2008',
    proj: '+proj=lcc +lat_0=50.797815 +lon_0=4.35921583333333 +lat_1=49.8333333333333 +lat_2=51.1666666666667 +x_0=649328 +y_0=665262 +ellps=GRS80 +towgs84=0,0,0',
  },
  2056: {
    name: 'CH1903+ / LV95',
    esri: 'CH1903+_LV95',
    proj: '+proj=somerc +lat_0=46.9524055555556 +lon_0=7.43958333333333 +k_0=1 +x_0=2600000 +y_0=1200000 +ellps=bessel +towgs84=674.374,15.056,405.346,0,0,0,0',
  },
  21781: {
    name: 'CH1903 / LV03',
    esri: 'CH1903_LV03',
    proj: '+proj=somerc +lat_0=46.9524055555556 +lon_0=7.43958333333333 +k_0=1 +x_0=600000 +y_0=200000 +ellps=bessel +towgs84=674.374,15.056,405.346,0,0,0,0',
  },
  5514: {
    name: 'S-JTSK / Krovak East North',
    esri: 'S-JTSK_Krovak_East_North',
    proj: '+proj=krovak +lat_0=49.5 +lon_0=24.8333333333333 +alpha=30.2881397527778 +k=0.9999 +x_0=0 +y_0=0 +ellps=bessel +towgs84=570.8,85.7,462.8,4.998,1.587,5.261,3.56',
  },
  31254: {
    name: 'MGI / Austria GK West',
    esri: 'MGI_Austria_GK_West',
    proj: '+proj=tmerc +lat_0=0 +lon_0=10.3333333333333 +k=1 +x_0=0 +y_0=-5000000 +ellps=bessel +towgs84=577.326,90.129,463.919,5.137,1.474,5.297,2.4232',
  },
  31255: {
    name: 'MGI / Austria GK Central',
    esri: 'MGI_Austria_GK_Central',
    proj: '+proj=tmerc +lat_0=0 +lon_0=13.3333333333333 +k=1 +x_0=0 +y_0=-5000000 +ellps=bessel +towgs84=577.326,90.129,463.919,5.137,1.474,5.297,2.4232',
  },
  31256: {
    name: 'MGI / Austria GK East',
    esri: 'MGI_Austria_GK_East',
    proj: '+proj=tmerc +lat_0=0 +lon_0=16.3333333333333 +k=1 +x_0=0 +y_0=-5000000 +ellps=bessel +towgs84=577.326,90.129,463.919,5.137,1.474,5.297,2.4232',
  },
  31257: {
    name: 'MGI / Austria GK M28',
    esri: 'MGI_Austria_GK_M28',
    proj: '+proj=tmerc +lat_0=0 +lon_0=10.3333333333333 +k=1 +x_0=150000 +y_0=-5000000 +ellps=bessel +towgs84=577.326,90.129,463.919,5.137,1.474,5.297,2.4232',
  },
  31258: {
    name: 'MGI / Austria GK M31',
    esri: 'MGI_Austria_GK_M31',
    proj: '+proj=tmerc +lat_0=0 +lon_0=13.3333333333333 +k=1 +x_0=450000 +y_0=-5000000 +ellps=bessel +towgs84=577.326,90.129,463.919,5.137,1.474,5.297,2.4232',
  },
  31259: {
    name: 'MGI / Austria GK M34',
    esri: 'MGI_Austria_GK_M34',
    proj: '+proj=tmerc +lat_0=0 +lon_0=16.3333333333333 +k=1 +x_0=750000 +y_0=-5000000 +ellps=bessel +towgs84=577.326,90.129,463.919,5.137,1.474,5.297,2.4232',
  },
  31287: {
    name: 'MGI / Austria Lambert',
    esri: 'MGI_Austria_Lambert',
    proj: '+proj=lcc +lat_0=47.5 +lon_0=13.3333333333333 +lat_1=49 +lat_2=46 +x_0=400000 +y_0=400000 +ellps=bessel +towgs84=577.326,90.129,463.919,5.137,1.474,5.297,2.4232',
  },
  3416: {
    name: 'ETRS89 / Austria Lambert',
    esri: 'ETRS_1989_Austria_Lambert',
    proj: '+proj=lcc +lat_0=47.5 +lon_0=13.3333333333333 +lat_1=49 +lat_2=46 +x_0=400000 +y_0=400000 +ellps=GRS80 +towgs84=0,0,0',
  },
  31466: {
    name: 'DHDN / 3-degree Gauss-Kruger zone 2',
    esri: 'DHDN_3_Degree_Gauss_Zone_2',
    proj: '+proj=tmerc +lat_0=0 +lon_0=6 +k=1 +x_0=2500000 +y_0=0 +ellps=bessel +towgs84=598.1,73.7,418.2,0.202,0.045,-2.455,6.7',
  },
  31467: {
    name: 'DHDN / 3-degree Gauss-Kruger zone 3',
    esri: 'DHDN_3_Degree_Gauss_Zone_3',
    proj: '+proj=tmerc +lat_0=0 +lon_0=9 +k=1 +x_0=3500000 +y_0=0 +ellps=bessel +towgs84=598.1,73.7,418.2,0.202,0.045,-2.455,6.7',
  },
  31468: {
    name: 'DHDN / 3-degree Gauss-Kruger zone 4',
    esri: 'DHDN_3_Degree_Gauss_Zone_4',
    proj: '+proj=tmerc +lat_0=0 +lon_0=12 +k=1 +x_0=4500000 +y_0=0 +ellps=bessel +towgs84=598.1,73.7,418.2,0.202,0.045,-2.455,6.7',
  },
  31469: {
    name: 'DHDN / 3-degree Gauss-Kruger zone 5',
    esri: 'DHDN_3_Degree_Gauss_Zone_5',
    proj: '+proj=tmerc +lat_0=0 +lon_0=15 +k=1 +x_0=5500000 +y_0=0 +ellps=bessel +towgs84=598.1,73.7,418.2,0.202,0.045,-2.455,6.7',
  },
  3912: {
    name: 'MGI 1901 / Slovene National Grid',
    esri: 'MGI_1901_Slovene_National_Grid',
    proj: '+proj=tmerc +lat_0=0 +lon_0=15 +k=0.9999 +x_0=500000 +y_0=-5000000 +ellps=bessel +towgs84=476.08,125.947,417.81,4.610862,2.388137,-11.942335,9.896638',
  },
  3794: {
    name: 'Slovenia 1996 / Slovene National Grid',
    esri: 'Slovenia_1996_Slovene_National_Grid',
    proj: '+proj=tmerc +lat_0=0 +lon_0=15 +k=0.9999 +x_0=500000 +y_0=-5000000 +ellps=GRS80 +towgs84=0,0,0',
  },
  3765: {
    name: 'HTRS96 / Croatia TM',
    esri: 'HTRS96_Croatia_TM',
    proj: '+proj=tmerc +lat_0=0 +lon_0=16.5 +k=0.9999 +x_0=500000 +y_0=0 +ellps=GRS80 +towgs84=0,0,0',
  },
  23700: {
    name: 'HD72 / EOV',
    esri: 'Hungarian_1972_Egyseges_Orszagos_Vetuleti',
    proj: '+proj=somerc +lat_0=47.1443937222222 +lon_0=19.0485717777778 +k_0=0.99993 +x_0=650000 +y_0=200000 +ellps=GRS67 +towgs84=52.17,-71.82,-14.9,0,0,0,0',
  },
  2180: {
    name: 'ETRF2000-PL / CS92',
    esri: 'ETRS_1989_Poland_CS92',
    proj: '+proj=tmerc +lat_0=0 +lon_0=19 +k=0.9993 +x_0=500000 +y_0=-5300000 +ellps=GRS80 +towgs84=0,0,0',
  },
  2178: {
    name: 'ETRF2000-PL / CS2000/21',
    esri: 'ETRS_1989_Poland_CS2000_Zone_7',
    proj: '+proj=tmerc +lat_0=0 +lon_0=21 +k=0.999923 +x_0=7500000 +y_0=0 +ellps=GRS80 +towgs84=0,0,0',
  },
  2177: {
    name: 'ETRF2000-PL / CS2000/18',
    esri: 'ETRS_1989_Poland_CS2000_Zone_6',
    proj: '+proj=tmerc +lat_0=0 +lon_0=18 +k=0.999923 +x_0=6500000 +y_0=0 +ellps=GRS80 +towgs84=0,0,0',
  },
  2176: {
    name: 'ETRF2000-PL / CS2000/15',
    esri: 'ETRS_1989_Poland_CS2000_Zone_5',
    proj: '+proj=tmerc +lat_0=0 +lon_0=15 +k=0.999923 +x_0=5500000 +y_0=0 +ellps=GRS80 +towgs84=0,0,0',
  },
  2179: {
    name: 'ETRF2000-PL / CS2000/24',
    esri: 'ETRS_1989_Poland_CS2000_Zone_8',
    proj: '+proj=tmerc +lat_0=0 +lon_0=24 +k=0.999923 +x_0=8500000 +y_0=0 +ellps=GRS80 +towgs84=0,0,0',
  },
  3346: {
    name: 'LKS94 / Lithuania TM',
    esri: 'LKS_1994_Lithuania_TM',
    proj: '+proj=tmerc +lat_0=0 +lon_0=24 +k=0.9998 +x_0=500000 +y_0=0 +ellps=GRS80 +towgs84=0,0,0',
  },
  3059: {
    name: 'LKS92 / Latvia TM',
    esri: 'LKS_1992_Latvia_TM',
    proj: '+proj=tmerc +lat_0=0 +lon_0=24 +k=0.9996 +x_0=500000 +y_0=-6000000 +ellps=GRS80 +towgs84=0,0,0',
  },
  3301: {
    name: 'Estonian Coordinate System of 1997',
    esri: 'Estonia_1997_Estonia_National_Grid',
    proj: '+proj=lcc +lat_0=57.5175539305556 +lon_0=24 +lat_1=59.3333333333333 +lat_2=58 +x_0=500000 +y_0=6375000 +ellps=GRS80 +towgs84=0,0,0',
  },
  3763: {
    name: 'ETRS89 / Portugal TM06',
    esri: 'ETRS_1989_Portugal_TM06',
    proj: '+proj=tmerc +lat_0=39.6682583333333 +lon_0=-8.13310833333333 +k=1 +x_0=0 +y_0=0 +ellps=GRS80 +towgs84=0,0,0',
  },
  2100: {
    name: 'GGRS87 / Greek Grid',
    esri: 'Greek_Grid',
    proj: '+proj=tmerc +lat_0=0 +lon_0=24 +k=0.9996 +x_0=500000 +y_0=0 +ellps=GRS80 +towgs84=-199.87,74.79,246.62,0,0,0,0',
  },
  3035: {
    name: 'ETRS89-extended / LAEA Europe',
    esri: 'ETRS_1989_LAEA',
    proj: '+proj=laea +lat_0=52 +lon_0=10 +x_0=4321000 +y_0=3210000 +ellps=GRS80 +towgs84=0,0,0',
  },
  3034: {
    name: 'ETRS89-extended / LCC Europe',
    esri: 'ETRS_1989_LCC',
    proj: '+proj=lcc +lat_0=52 +lon_0=10 +lat_1=35 +lat_2=65 +x_0=4000000 +y_0=2800000 +ellps=GRS80 +towgs84=0,0,0',
  },
  5243: {
    name: 'ETRS89 / LCC Germany (E-N)',
    esri: 'ETRS_1989_LCC_Germany_E-N',
    proj: '+proj=lcc +lat_0=51 +lon_0=10.5 +lat_1=48.6666666666667 +lat_2=53.6666666666667 +x_0=0 +y_0=0 +ellps=GRS80 +towgs84=0,0,0',
  },
  3003: {
    name: 'Monte Mario / Italy zone 1',
    esri: 'Monte_Mario_Italy_1',
    proj: '+proj=tmerc +lat_0=0 +lon_0=9 +k=0.9996 +x_0=1500000 +y_0=0 +ellps=intl +towgs84=-104.1,-49.1,-9.9,0.971,-2.917,0.714,-11.68',
  },
  3004: {
    name: 'Monte Mario / Italy zone 2',
    esri: 'Monte_Mario_Italy_2',
    proj: '+proj=tmerc +lat_0=0 +lon_0=15 +k=0.9996 +x_0=2520000 +y_0=0 +ellps=intl +towgs84=-104.1,-49.1,-9.9,0.971,-2.917,0.714,-11.68',
  },
  2193: {
    name: 'NZGD2000 / New Zealand Transverse Mercator 2000',
    esri: 'NZGD_2000_New_Zealand_Transverse_Mercator',
    proj: '+proj=tmerc +lat_0=0 +lon_0=173 +k=0.9996 +x_0=1600000 +y_0=10000000 +ellps=GRS80 +towgs84=0,0,0',
  },
  5070: {
    name: 'NAD83 / Conus Albers',
    esri: 'NAD_1983_Contiguous_USA_Albers',
    proj: '+proj=aea +lat_0=23 +lon_0=-96 +lat_1=29.5 +lat_2=45.5 +x_0=0 +y_0=0 +ellps=GRS80 +towgs84=0,0,0',
  },
  6350: {
    name: 'NAD83(2011) / Conus Albers',
    esri: 'NAD_1983_2011_Contiguous_USA_Albers',
    proj: '+proj=aea +lat_0=23 +lon_0=-96 +lat_1=29.5 +lat_2=45.5 +x_0=0 +y_0=0 +ellps=GRS80 +towgs84=0,0,0',
  },
  3347: {
    name: 'NAD83 / Statistics Canada Lambert',
    esri: 'NAD_1983_Statistics_Canada_Lambert',
    proj: '+proj=lcc +lat_0=63.390675 +lon_0=-91.8666666666667 +lat_1=49 +lat_2=77 +x_0=6200000 +y_0=3000000 +ellps=GRS80 +towgs84=0,0,0',
  },
  3978: {
    name: 'NAD83 / Canada Atlas Lambert',
    esri: 'NAD_1983_Canada_Atlas_Lambert',
    proj: '+proj=lcc +lat_0=49 +lon_0=-95 +lat_1=49 +lat_2=77 +x_0=0 +y_0=0 +ellps=GRS80 +towgs84=0,0,0',
  },
  22185: {
    name: 'POSGAR 94 / Argentina 5',
    esri: 'POSGAR_1994_Argentina_Zone_5',
    proj: '+proj=tmerc +lat_0=-90 +lon_0=-60 +k=1 +x_0=5500000 +y_0=0 +ellps=WGS84 +towgs84=0,0,0',
  },
  5880: {
    name: 'SIRGAS 2000 / Brazil Polyconic',
    esri: 'SIRGAS_2000_Brazil_Polyconic',
    proj: '+proj=poly +lat_0=0 +lon_0=-54 +x_0=5000000 +y_0=10000000 +ellps=GRS80 +towgs84=0,0,0',
  },
  3577: {
    name: 'GDA94 / Australian Albers',
    esri: 'GDA_1994_Australia_Albers',
    proj: '+proj=aea +lat_0=0 +lon_0=132 +lat_1=-18 +lat_2=-36 +x_0=0 +y_0=0 +ellps=GRS80 +towgs84=0,0,0',
  },
  3011: {
    name: 'SWEREF99 18 00',
    esri: 'SWEREF99_18_00',
    proj: '+proj=tmerc +lat_0=0 +lon_0=18 +k=1 +x_0=150000 +y_0=0 +ellps=GRS80 +towgs84=0,0,0',
  },
  3844: {
    name: 'Pulkovo 1942(58) / Stereo70',
    esri: 'Pulkovo_1942_Adj_58_Stereo_70',
    proj: '+proj=sterea +lat_0=46 +lon_0=25 +k=0.99975 +x_0=500000 +y_0=500000 +ellps=krass +towgs84=2.329,-147.042,-92.08,-0.309,0.325,0.497,5.69',
  },
}
