// How paper takes the light: it scatters alike from both faces, lets a share through from behind, and sees less of the
// sky down in the cells. Shares as in the lit pictures (src/picture/papers.cpp), chosen by eye.
import { Color, DoubleSide, MeshLambertMaterial, ShaderChunk } from 'three';

// Part of the light that falls on one face leaves by the other.
const translucent = ShaderChunk.lights_lambert_pars_fragment.replace(
  'saturate( dot( geometryNormal, directLight.direction ) )',
  'mix( saturate( dot( geometryNormal, directLight.direction ) ), saturate( -dot( geometryNormal, directLight.direction ) ), 0.2 )',
);

// Down in a cell the sky is hidden; what comes instead has been on other paper before and carries its colour. Seeing a
// share A of the sky among paper that sends back a share r, light that goes on being scattered sums up to A / (1 - r (1 - A)).
const sheltered = /* glsl */ `
  vec3 sent_back = 0.95 * diffuseColor.rgb;
  float sky = 0.06 + 0.94 * vOpenness;
  reflectedLight.indirectDiffuse *= sky / ( 1.0 - sent_back * ( 1.0 - sky ) );
  reflectedLight.directDiffuse *= smoothstep( -0.05, 0.3, vOpenness );
`;

/** Paper of a colour (sRGB #rrggbb). The geometry needs an attribute `openness`, 0..1. */
export function paperOf(colour: string): MeshLambertMaterial {
  const paper = new MeshLambertMaterial({ color: new Color(colour), side: DoubleSide, shadowSide: DoubleSide });
  paper.onBeforeCompile = (shader) => {
    shader.vertexShader = shader.vertexShader
      .replace('#include <common>', '#include <common>\nattribute float openness;\nvarying float vOpenness;')
      .replace('#include <begin_vertex>', '#include <begin_vertex>\nvOpenness = openness;');
    shader.fragmentShader = shader.fragmentShader
      .replace('#include <common>', '#include <common>\nvarying float vOpenness;')
      .replace('#include <lights_lambert_pars_fragment>', translucent)
      .replace('#include <aomap_fragment>', sheltered);
  };
  return paper;
}
