import { describe, expect, test } from 'vitest';
import { Network } from '../../../../src/lib/receiver/stage-check/network.ts';

describe('a small network', () => {
	test('a third of 9 V stands at 10 kohm below 20 kohm', () => {
		const net = new Network(1);
		net.toFixed(0, 20e3, 9);
		net.toFixed(0, 10e3);
		expect(net.solve([0])[0]).toBeCloseTo(3, 6);
	});

	test('a meter sees the two resistors of a divider side by side', () => {
		const net = new Network(1);
		net.toFixed(0, 20e3, 9);
		net.toFixed(0, 10e3);
		expect(net.resistances(net.solve([0]))[0]).toBeCloseTo(20e3 / 3, 1);
	});

	test('1 mA into a bridge of resistors obeys Kirchhoff at each node', () => {
		const net = new Network(2);
		net.inject(0, 1e-3);
		net.between(0, 1, 1e3);
		net.toFixed(0, 3e3);
		net.toFixed(1, 2e3);
		const [top = NaN, middle = NaN] = net.solve([0, 0]);
		expect(top / 3e3 + (top - middle) / 1e3).toBeCloseTo(1e-3, 9);
		expect((top - middle) / 1e3).toBeCloseTo(middle / 2e3, 9);
	});

	test('a law that bends is solved where its current meets that of the resistor', () => {
		const net = new Network(1);
		net.toFixed(0, 100e3, 250);
		net.device([0], (volts, drawn) => {
			drawn[0] = 1e-6 * Math.max(volts[0]!, 0) ** 1.5;
		});
		const [volts = NaN] = net.solve([250]);
		expect((250 - volts) / 100e3).toBeCloseTo(1e-6 * volts ** 1.5, 8);
	});
});
