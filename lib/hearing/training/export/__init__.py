"""What leaves the training: plain weights, ONNX and vectors that pin the inference."""
