#pragma once

#include <stdexcept>
#include <string>

namespace drumlin::sim {

/// A numerical method did not reach its stated measure: the message names the place, the residual,
/// the iterations and what to try.
class NumericsError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// The contact grew wider than the patch it was given; a wider one may do.
class PatchOutgrown : public NumericsError {
 public:
  using NumericsError::NumericsError;
};

/// The caller asked for a stop and got it; no result exists.
class Stopped : public std::runtime_error {
 public:
  Stopped() : std::runtime_error("stopped on request; nothing was written") {}
  /// @param what  was kept, and how to go on.
  explicit Stopped(const std::string& what) : std::runtime_error(what) {}
};

}  // namespace drumlin::sim
