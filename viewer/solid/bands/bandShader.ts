import { type IUniform, type MeshLambertMaterial, Vector2, Vector3 } from 'three';

/** More bands than that are not drawn. */
export const MOST_BANDS = 24;
/** A stretch and its mirror image. */
const MOST_TAKE_UPS = 2;

const list = <T>(count: number, of: () => T): T[] => Array.from({ length: count }, of);

/** What the picture of the bands hangs on, handed to the processor that draws it. */
export const bandUniforms = () => ({
  bandAxis: { value: new Vector3() },
  bandCount: { value: 0 },
  /** Levels where each begins and ends. */
  bandEnds: { value: list(MOST_BANDS, () => new Vector2()) },
  /** Second tint, changed, amid what is round, somebody is at it, over whatever faces: 1, 2, 4, 8, 16 together. */
  bandManner: { value: new Int32Array(MOST_BANDS) },
  /** From, to, by. */
  takeUps: { value: list(MOST_TAKE_UPS, () => new Vector3(0, 1, 0)) },
  /** How far the level that stays would move. */
  takeUpStays: { value: 0 },
  bandOne: { value: new Vector3() },
  bandTwo: { value: new Vector3() },
  bandLine: { value: new Vector3() },
  bandMind: { value: new Vector3() },
  bandAt: { value: new Vector3() },
  /** Dots of the screen a pixel. */
  dots: { value: 1 },
});
export type BandUniforms = ReturnType<typeof bandUniforms>;

const declared = `
uniform vec3 bandAxis;
varying float vLevel;
varying float vLean;
`;

const vertexHead = `${declared}
uniform vec3 takeUps[${MOST_TAKE_UPS}];
uniform float takeUpStays;
float shiftAt(float level) {
  float shift = -takeUpStays;
  for (int k = 0; k < ${MOST_TAKE_UPS}; k++)
    shift += takeUps[k].z * clamp((level - takeUps[k].x) / (takeUps[k].y - takeUps[k].x), 0.0, 1.0);
  return shift;
}
`;

const vertexBody = `
vLevel = dot(position, bandAxis);
float bandShift = shiftAt(vLevel);
vLevel += bandShift;
transformed += bandShift * bandAxis;
vLean = abs(dot(normal, bandAxis));
`;

const fragmentHead = `${declared}
uniform int bandCount;
uniform vec2 bandEnds[${MOST_BANDS}];
uniform int bandManner[${MOST_BANDS}];
uniform vec3 bandOne;
uniform vec3 bandTwo;
uniform vec3 bandLine;
uniform vec3 bandMind;
uniform vec3 bandAt;
uniform float dots;
float stripe(float way, float apart, float width) {
  float s = mod(gl_FragCoord.x + way * gl_FragCoord.y, apart * dots);
  float off = min(s, apart * dots - s);
  return 1.0 - smoothstep(0.5 * width * dots - 0.5, 0.5 * width * dots + 0.5, off);
}
`;

/** Within this of a right angle a wall runs along the axis. What crosses a stretch does; faces at its ends do not. */
const fragmentBody = `
float levelWidth = max(fwidth(vLevel), 1e-7);
for (int k = 0; k < ${MOST_BANDS}; k++) {
  if (k >= bandCount) break;
  vec2 ends = bandEnds[k];
  int manner = bandManner[k];
  bool anyFace = (manner & 16) != 0;
  if (!anyFace && vLean > 0.02) continue;
  float inside = min(vLevel - ends.x, ends.y - vLevel) / levelWidth;
  if (inside < -0.5) continue;
  if (!anyFace) {
    bool second = (manner & 1) != 0;
    diffuseColor.rgb = second ? bandTwo : bandOne;
    if (second) diffuseColor.rgb = mix(diffuseColor.rgb, bandLine, 0.6 * stripe(1.0, 10.0, 1.3));
  }
  if ((manner & 4) != 0)
    diffuseColor.rgb = mix(diffuseColor.rgb, bandMind, max(stripe(1.0, 9.0, 2.2), stripe(-1.0, 9.0, 2.2)));
  // A face that lies nearly in the plane of an end would be all line.
  if (vLean > 0.7) continue;
  float width = (manner & 8) != 0 ? 3.2 : (manner & 2) != 0 ? 2.6 : 1.6;
  float edge = 1.0 - smoothstep(width * dots - 0.5, width * dots + 0.5, inside);
  diffuseColor.rgb = mix(diffuseColor.rgb, (manner & 8) != 0 ? bandAt : (manner & 4) != 0 ? bandMind : bandLine, edge);
}
`;

/** Makes a material draw the bands and move what it draws along with them. Nothing is worked out anew for a pull but these
 *  few numbers, however many triangles the part has. */
export function banded(material: MeshLambertMaterial, uniforms: BandUniforms): void {
  material.onBeforeCompile = (shader) => {
    Object.assign(shader.uniforms, uniforms as Record<string, IUniform>);
    shader.vertexShader =
      vertexHead +
      shader.vertexShader.replace('#include <begin_vertex>', `#include <begin_vertex>\n${vertexBody}`);
    shader.fragmentShader =
      fragmentHead +
      shader.fragmentShader.replace(
        '#include <color_fragment>',
        `#include <color_fragment>\n${fragmentBody}`,
      );
  };
}
