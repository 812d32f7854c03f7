import '../cutting-room/policy.ts';
import loadHighs from 'highs';
import wasm from 'highs/runtime?url';
import { answerOrders } from './answer-orders.ts';

answerOrders(loadHighs({ locateFile: () => wasm }));
