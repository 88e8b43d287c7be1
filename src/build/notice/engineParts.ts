/** Versions of the packages that `ENGINE_PARTS` was written down for; other ones may be linked from other parts. */
export const LOOKED_AT: Readonly<Record<string, string>> = {
  '@electric-sql/pglite': '0.5.8',
  '@electric-sql/pglite-postgis': '0.2.8',
}

/** A program or library that the engine's WebAssembly is linked from. */
export interface EnginePart {
  readonly name: string
  readonly version: string
  /** SPDX expression. */
  readonly licence: string
  readonly copyright: string
  /** Where its source is had. */
  readonly source: string
  /** Files in `texts` with its licence. */
  readonly texts: readonly string[]
  readonly note?: string
}

/** What `postgis-3.so`, PostGIS's library, is linked from, as its own strings and `postgis_full_version()` tell. */
export const POSTGIS_PARTS: readonly EnginePart[] = [
  {
    name: 'PostGIS',
    version: '3.6.2',
    licence: 'GPL-2.0-or-later',
    copyright: 'Copyright (C) 2001-2026 the PostGIS contributors',
    source: 'https://download.osgeo.org/postgis/source/postgis-3.6.2.tar.gz',
    texts: ['GPL-2.0'],
    note: 'Holds Ryu (Copyright 2018 Ulf Adams, Boost Software License 1.0) and uthash (Copyright (c) 2003-2022 Troy D. Hanson, BSD).',
  },
  {
    name: 'GEOS',
    version: '3.14.0',
    licence: 'LGPL-2.1-or-later',
    copyright: 'Copyright (C) 1995-2025 the GEOS contributors',
    source: 'https://download.osgeo.org/geos/geos-3.14.0.tar.bz2',
    texts: ['LGPL-2.1'],
    note: 'Holds Ryu, as above, and JSON for Modern C++ (Copyright (c) 2013-2019 Niels Lohmann, MIT).',
  },
  {
    name: 'PROJ, and a part of its database',
    version: '9.7.0',
    licence: 'MIT',
    copyright: 'Copyright (c) 2000-2025 Frank Warmerdam, Even Rouault, Charles Karney, Kristian Evers and others',
    source: 'https://download.osgeo.org/proj/proj-9.7.0.tar.gz',
    texts: ['MIT'],
    note: 'The database is cut down to what Selion needs. It rests on the EPSG Geodetic Parameter Dataset, owned by IOGP (https://epsg.org/terms-of-use.html).',
  },
  {
    name: 'GDAL',
    version: '3.11.4',
    licence: 'MIT',
    copyright: 'Copyright (c) 1998-2025 Frank Warmerdam, Even Rouault and others',
    source: 'https://download.osgeo.org/gdal/3.11.4/gdal-3.11.4.tar.gz',
    texts: ['GDAL'],
    note: 'Its parts under other terms, libgeotiff, FlatGeobuf and Qhull among them, are named in its own text. The source of Qhull is had from http://www.qhull.org.',
  },
  {
    name: 'LibTIFF',
    version: '4.7.1',
    licence: 'libtiff',
    copyright: 'Copyright (c) 1988-1997 Sam Leffler, 1991-1997 Silicon Graphics, Inc.',
    source: 'https://download.osgeo.org/libtiff/tiff-4.7.1.tar.gz',
    texts: ['libtiff'],
  },
  {
    name: 'SQLite',
    version: '3.50.4',
    licence: 'none is needed',
    copyright: 'In the public domain',
    source: 'https://www.sqlite.org/src',
    texts: [],
  },
  {
    name: 'libxml2',
    version: '2.14.5',
    licence: 'MIT',
    copyright: 'Copyright (C) 1998-2012 Daniel Veillard. All Rights Reserved.',
    source: 'https://gitlab.gnome.org/GNOME/libxml2/-/tree/v2.14.5',
    texts: ['MIT'],
  },
  {
    name: 'json-c',
    version: '0.18',
    licence: 'MIT',
    copyright:
      'Copyright (c) 2004-2013 Metaparadigm Pte. Ltd., 2008-2009 Yahoo! Inc., 2009-2012 Hewlett-Packard Development Company, L.P., 2012-2024 Eric Haszlakiewicz',
    source: 'https://github.com/json-c/json-c/tree/json-c-0.18-20240915',
    texts: ['MIT'],
  },
]

/** What `pglite.wasm`, the database itself, is linked from; the last four stand in both. */
export const DATABASE_PARTS: readonly EnginePart[] = [
  {
    name: 'PostgreSQL',
    version: '18.3',
    licence: 'PostgreSQL',
    copyright: 'Portions Copyright (c) 1996-2026, PostgreSQL Global Development Group',
    source: 'https://ftp.postgresql.org/pub/source/v18.3/',
    texts: ['PostgreSQL'],
    note: 'As changed for WebAssembly in https://github.com/electric-sql/postgres-pglite.',
  },
  {
    name: 'ICU',
    version: '76.1',
    licence: 'Unicode-3.0',
    copyright:
      'Copyright © 2016-2024 Unicode, Inc.; Copyright (c) 1995-2016 International Business Machines Corporation and others',
    source: 'https://github.com/unicode-org/icu/tree/release-76-1',
    texts: ['Unicode-3.0'],
  },
  {
    name: 'libxslt',
    version: '1.1',
    licence: 'MIT',
    copyright: 'Copyright (C) 2001-2002 Daniel Veillard. All Rights Reserved.',
    source: 'https://gitlab.gnome.org/GNOME/libxslt',
    texts: ['MIT'],
  },
  {
    name: 'libxml2',
    version: '2.14.5',
    licence: 'MIT',
    copyright: 'Copyright (C) 1998-2012 Daniel Veillard. All Rights Reserved.',
    source: 'https://gitlab.gnome.org/GNOME/libxml2/-/tree/v2.14.5',
    texts: ['MIT'],
  },
  {
    name: 'zlib',
    version: '1.3.2',
    licence: 'Zlib',
    copyright: 'Copyright (C) 1995-2026 Jean-loup Gailly and Mark Adler',
    source: 'https://zlib.net',
    texts: ['zlib'],
  },
  {
    name: 'Emscripten',
    version: '3.1.74',
    licence: 'MIT OR NCSA',
    copyright: 'Copyright (c) 2010-2024 Emscripten authors',
    source: 'https://github.com/emscripten-core/emscripten/tree/3.1.74',
    texts: ['MIT'],
  },
  {
    name: 'musl libc',
    version: 'as in Emscripten 3.1.74',
    licence: 'MIT',
    copyright: 'Copyright © 2005-2020 Rich Felker, et al.',
    source: 'https://github.com/emscripten-core/emscripten/tree/3.1.74/system/lib/libc/musl',
    texts: ['MIT'],
  },
  {
    name: 'LLVM: compiler-rt, libc++, libc++abi',
    version: 'as in Emscripten 3.1.74',
    licence: 'Apache-2.0 WITH LLVM-exception',
    copyright: 'Copyright (c) 2003-2024 the LLVM contributors',
    source: 'https://github.com/emscripten-core/emscripten/tree/3.1.74/system/lib',
    texts: ['Apache-2.0', 'LLVM-exception'],
  },
]
