import { describe, expect, test } from 'vitest';
import { sumsFor } from '../../../../src/lib/ui/sums/find.ts';

const idsFor = (query: string) => sumsFor(query).map(({ id }) => id);

describe('the sum that a restorer wants comes first', () => {
	test.each([
		['burnt resistor', 'resistor-drop'],
		['hot resistor', 'resistor-drop'],
		['resistor runs hot', 'resistor-drop'],
		['hum', 'supply-ripple'],
		['ripple', 'supply-ripple'],
		['which colour', 'part-codes'],
		['how long reform', 'reform-progress'],
		['reform resistor', 'reform-resistor'],
		['bias', 'valve-operating-point'],
		['fuse blew', 'fuse'],
		['what size fuse', 'fuse'],
		['leaky capacitor', 'grid-leakage'],
		['coupling condenser leaks', 'grid-leakage'],
		['leaking electrolytic', 'electrolytic-leakage-limit'],
		['old electrolytic reads too much', 'capacitor-condition'],
		['dim bulb tester', 'lamp-limiter'],
		['lamp stays bright', 'lamp-limiter'],
		['dropper', 'heater-chain'],
		['tubes in series', 'heater-chain'],
		['heaters dim', 'heater-chain'],
		['mains too high', 'mains-overvoltage'],
		['line voltage 125', 'mains-overvoltage'],
		['whistle', 'dial-frequencies'],
		['image', 'dial-frequencies'],
		['station in the wrong place', 'dial-frequencies'],
		['dial does not track', 'tracking'],
		['padder', 'tracking'],
		['selectivity', 'if-transformer'],
		['IF can peak', 'if-transformer'],
		['alignement', 'alignment-order'],
		['which core first', 'alignment-order'],
		['ratio detector', 'fm-detector'],
		['FM buzz', 'fm-detector'],
		['magic eye', 'avc'],
		['AGC voltage', 'avc'],
		['speaker impedance', 'output-transformer'],
		['transfomer ratio', 'output-transformer'],
		['worn tube', 'gm-check'],
		['weak valve', 'gm-check'],
		['red plate', 'valve-operating-point'],
		['resister color code', 'part-codes'],
		['mica condenser dots', 'part-codes'],
		['replace .05 mfd', 'replacement-value'],
		['X2 capacitor', 'replacement-value'],
		['electric shock', 'insulation-touch-current'],
		['tingle from chassis', 'insulation-touch-current'],
		['safe to touch', 'insulation-touch-current'],
		['digital meter reads different', 'meter-loading'],
		['ohms per volt', 'meter-loading'],
		['coax', 'cable-capacitance'],
		['bass missing', 'time-constant'],
		['motorboating', 'time-constant'],
		['weak stations', 'stage-gain'],
		['sensitivity', 'stage-gain'],
		['coil resonance', 'lc-resonance'],
		['B+ low', 'supply-chain'],
		['HT low', 'supply-chain'],
		['choke', 'supply-ripple'],
		['wattage', 'resistor-derating'],
		['tone too dull', 'time-constant'],
		['grid voltage positive', 'grid-leakage'],
		['screen volts', 'valve-operating-point'],
		['silicon diode rectifier', 'supply-ripple'],
		['antenna lead', 'cable-capacitance'],
		['wire colours transformer', 'part-codes']
	])('%s leads to %s', (query, id) => expect(idsFor(query)[0]).toBe(id));

	test('a word that no sum knows finds none', () => expect(idsFor('transistor')).toEqual([]));

	test('words that stand in every question find nothing by themselves', () =>
		expect(idsFor('how much is it')).toEqual([]));
});
