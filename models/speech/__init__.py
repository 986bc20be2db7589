"""The speech model: int8 ONNX, its tokenizer and its labels; see MODEL_CARD.md."""
