// The library's writers carry no declarations of their own; these are the two functions in use.

declare module '@jscad/stl-serializer/CSGToStlb.js' {
  const writer: {
    /** Header of 80 bytes, number of triangles, triangles. */
    serializeBinary(
      objects: readonly import('@jscad/modeling/src/geometries/geom3/index.js').Geom3[],
      options: { statusCallback?: (status: { progress: number }) => void },
    ): readonly [ArrayBuffer, ArrayBuffer, ArrayBuffer];
  };
  export default writer;
}

declare module '@jscad/stl-serializer/CSGToStla.js' {
  const writer: {
    serializeText(
      objects: readonly import('@jscad/modeling/src/geometries/geom3/index.js').Geom3[],
      options: { statusCallback?: (status: { progress: number }) => void },
    ): readonly [string];
  };
  export default writer;
}
