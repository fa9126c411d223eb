#pragma once

#include <cstddef>
#include <functional>
#include <memory>

#include "sim/fast/drums.hpp"

namespace drumlin::sim {

/// Does pieces of work that do not depend on each other on all cores, each core with drums of its
/// own.
class Workers {
 public:
  /// @param threads  0: as many as there are cores.
  explicit Workers(unsigned threads = 0);
  ~Workers();
  Workers(const Workers&) = delete;
  Workers& operator=(const Workers&) = delete;
  Workers(Workers&&) = delete;
  Workers& operator=(Workers&&) = delete;

  /// Calls `work` once for every number below `count`, neighbours on one core, and returns when all
  /// are done. What one throws ends the others and is thrown on.
  ///
  /// @param at_a_time  neighbours that are taken together, > 0.
  void each(std::size_t count, std::size_t at_a_time,
            const std::function<void(std::size_t, fast::Drums&)>& work);

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace drumlin::sim
