import { expectedVolts, surveyPoints, stagesSay, toHt, verdictOf, planWith, type SurveyRow } from './src/lib/receiver/survey.ts';
import { typicalCurrent } from './src/lib/receiver/survey-supply.ts';
import { shippedLibrary } from './tests/library.ts';
const { plans } = shippedLibrary() as any;
function rowsOf(plan:any, read:any, volts:any={}, today:any={}) {
  const expected = expectedVolts(plan, {volts, parts:{}}, today);
  return surveyPoints(plan).map((point:any)=>({point,expected:expected[point.id],now:expected[point.id],reading:read[point.id],out:false,verdict:undefined,alarm:undefined}) as SurveyRow);
}
for (const id of Object.keys(plans)) { const t=typicalCurrent(plans[id], 250); console.log(id, t); }
const show=(n:string,plan:any,read:any,volts:any={},bench:any={parts:{}},today:any={})=>{ const t0=performance.now(); const [s]=stagesSay(plan, rowsOf(plan,read,volts,today), bench); console.log('##',n,Math.round(performance.now()-t0),'ms', s?.title, s?.finding.verdict,'|',s?.finding.statement,'| NEXT',s?.finding.lookNext?.words,'|',s?.basis, s?.closer.map((c:any)=>c.point).join(), s?.finding.explanations.slice(0,4).map((e:any)=>e.fault+' '+e.score.toFixed(2)).join('; '))};
const p=plans['am-fm-shared'];
const sheet={'ht.reservoir':270,'ht.smoothed':250,'output.anode':245};
show('sound typical',p,{'ht.reservoir':272,'ht.smoothed':248});
show('sound sheet',p,{'ht.reservoir':272,'ht.smoothed':248},sheet,{parts:{'ht.smoothing-resistor':{value:1200,name:'R12'}}});
show('sheet smoothing risen',p,{'ht.reservoir':285,'ht.smoothed':205},sheet,{parts:{'ht.smoothing-resistor':{value:1200,name:'R12'}}});
show('sheet low both',p,{'ht.reservoir':215,'ht.smoothed':200},sheet,{parts:{'ht.smoothing-resistor':{value:1200,name:'R12'}},supply:{winding:250,reservoir:50e-6,current:0.07}});
show('sheet low both ripple',p,{'ht.reservoir':215,'ht.smoothed':200},sheet,{parts:{'ht.smoothing-resistor':{value:1200,name:'R12'}},supply:{winding:250,reservoir:50e-6,current:0.07},extra:{'ht.ripple':40}});
show('heavy load',p,{'ht.reservoir':240,'ht.smoothed':150},sheet,{parts:{'ht.smoothing-resistor':{value:1200,name:'R12'}},supply:{winding:250,reservoir:50e-6,current:0.07}});
show('no ht',p,{'ht.reservoir':0,'ht.smoothed':0},sheet);
show('shorted smoothed',p,{'ht.reservoir':200,'ht.smoothed':2},sheet,{parts:{'ht.smoothing-resistor':{value:1200,name:'R12'}}});
const ac=planWith(plans['am-acdc-five'],{ mixer:'UCH81', if:'UF89', detector:'UABC80', output:'UL84', rectifier:'UY85' });
show('acdc sound',ac,{'ht.reservoir':235,'ht.smoothed':205},{}, {parts:{},supply:{mains:230}},{mains:230});
show('acdc low',ac,{'ht.reservoir':165,'ht.smoothed':140},{}, {parts:{},supply:{mains:230}},{mains:230});
show('back bias',plans['am-transformer-back-bias'],{'ht.reservoir':260,'ht.smoothed':235});
show('ac5',plans['am-acdc-five'],{'ht.reservoir':130,'ht.smoothed':110},{},{parts:{},supply:{mains:117}},{mains:117});
